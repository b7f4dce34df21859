/**
 * What Windows shows for a time zone, without the offset in front, as some exporters write it into TZID. Data only, and only
 * labels whose places all keep one time today: of others the label does not say which clock is meant.
 * Source: the labels Windows shows for the zones of windowsZones.ts.
 */
const ROWS = `
Abu Dhabi, Muscat = Asia/Dubai
Adelaide = Australia/Adelaide
Alaska = America/Anchorage
Amsterdam, Berlin, Bern, Rome, Stockholm, Vienna = Europe/Berlin
Arizona = America/Phoenix
Athens, Bucharest = Europe/Bucharest
Atlantic Time (Canada) = America/Halifax
Auckland, Wellington = Pacific/Auckland
Azores = Atlantic/Azores
Baghdad = Asia/Baghdad
Bangkok, Hanoi, Jakarta = Asia/Bangkok
Beijing, Chongqing, Hong Kong, Urumqi = Asia/Shanghai
Belgrade, Bratislava, Budapest, Ljubljana, Prague = Europe/Budapest
Bogota, Lima, Quito = America/Bogota
Brasilia = America/Sao_Paulo
Brisbane = Australia/Brisbane
Brussels, Copenhagen, Madrid, Paris = Europe/Paris
Buenos Aires = America/Buenos_Aires
Cairo = Africa/Cairo
Canberra, Melbourne, Sydney = Australia/Sydney
Central America = America/Guatemala
Central Time (US and Canada) = America/Chicago
Chennai, Kolkata, Mumbai, New Delhi = Asia/Calcutta
Coordinated Universal Time = Etc/UTC
Darwin = Australia/Darwin
Dublin, Edinburgh, Lisbon, London = Europe/London
Eastern Time (US and Canada) = America/New_York
Greenwich Mean Time, Dublin, Edinburgh, Lisbon, London = Europe/London
Harare, Pretoria = Africa/Johannesburg
Hawaii = Pacific/Honolulu
Helsinki, Kiev, Riga, Sofia, Tallinn, Vilnius = Europe/Kiev
Helsinki, Kyiv, Riga, Sofia, Tallinn, Vilnius = Europe/Kiev
Hobart = Australia/Hobart
Islamabad, Karachi = Asia/Karachi
Istanbul = Europe/Istanbul
Jerusalem = Asia/Jerusalem
Kabul = Asia/Kabul
Kathmandu = Asia/Katmandu
Kuala Lumpur, Singapore = Asia/Singapore
Kuwait, Riyadh = Asia/Riyadh
Mountain Time (US and Canada) = America/Denver
Nairobi = Africa/Nairobi
Newfoundland = America/St_Johns
Osaka, Sapporo, Tokyo = Asia/Tokyo
Pacific Time (US and Canada) = America/Los_Angeles
Pacific Time (US and Canada), Tijuana = America/Los_Angeles
Perth = Australia/Perth
Santiago = America/Santiago
Sarajevo, Skopje, Warsaw, Zagreb = Europe/Warsaw
Saskatchewan = America/Regina
Seoul = Asia/Seoul
Taipei = Asia/Taipei
Tehran = Asia/Tehran
`;

/** By the label in small letters, "&" as "and", other marks as a comma. */
export const WINDOWS_LABELS: ReadonlyMap<string, string> = new Map(
  ROWS.trim()
    .split("\n")
    .map((row) => row.split(" = ") as [string, string])
    .map(([label, zone]) => [label.toLowerCase(), zone]),
);
