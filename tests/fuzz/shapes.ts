/**
 * Shapes of calendars that keep some reader busy or fill its memory, most from public advisories on calendar and recurrence
 * libraries (from memory). Each is made as large as asked; reading twice as much may take about twice as long.
 */
import { LINE_SHAPES } from "./lineShapes.ts";
import { SERIES_SHAPES } from "./seriesShapes.ts";
import { SORT_SHAPES } from "./sortShapes.ts";
import { ZONE_SHAPES } from "./zoneShapes.ts";

export const SHAPES = [...LINE_SHAPES, ...SERIES_SHAPES, ...SORT_SHAPES, ...ZONE_SHAPES];
