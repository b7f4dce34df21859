/** Whether the prototypes that every object hangs on are as they were when this module was loaded. */

const WATCHED: readonly object[] = [
  Object.prototype,
  Array.prototype,
  Function.prototype,
  String.prototype,
  Object,
  Map.prototype,
  Date.prototype,
];

const membersOf = (watched: object): readonly unknown[] =>
  Reflect.ownKeys(watched).flatMap((key) => {
    const member = Reflect.getOwnPropertyDescriptor(watched, key);
    return member ? [key, ...Object.values(member)] : [key];
  });

const asLoaded = WATCHED.map(membersOf);

export const builtInsAreWhole = (): boolean =>
  WATCHED.every((watched, index) => {
    const [before, now] = [asLoaded[index] as readonly unknown[], membersOf(watched)];
    return before.length === now.length && now.every((member, at) => member === before[at]);
  });
