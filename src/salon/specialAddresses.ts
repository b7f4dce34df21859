/**
 * Which literal IP addresses are of no public host: this machine, private networks, links, documentation, tests, multicast
 * and ways to write one address inside another. Tables and sums; resolves no name.
 *
 * Source: the IANA IPv4 and IPv6 Special-Purpose Address Registries (RFC 6890, RFC 8190), from memory, with the RFC of each
 * row beside it.
 */

/** Network, prefix length. */
const SPECIAL_V4: readonly (readonly [string, number])[] = [
  ["0.0.0.0", 8], // this network, RFC 791
  ["10.0.0.0", 8], // private, RFC 1918
  ["100.64.0.0", 10], // shared by a provider's customers, RFC 6598
  ["127.0.0.0", 8], // loopback, RFC 1122
  ["169.254.0.0", 16], // link-local, RFC 3927; clouds answer with their secrets here
  ["172.16.0.0", 12], // private, RFC 1918
  ["192.0.0.0", 24], // protocol assignments, RFC 6890
  ["192.0.2.0", 24], // documentation, RFC 5737
  ["192.31.196.0", 24], // AS112, RFC 7535
  ["192.52.193.0", 24], // AMT, RFC 7450
  ["192.88.99.0", 24], // 6to4 relays, RFC 7526
  ["192.168.0.0", 16], // private, RFC 1918
  ["192.175.48.0", 24], // AS112, RFC 7534
  ["198.18.0.0", 15], // benchmarks, RFC 2544
  ["198.51.100.0", 24], // documentation, RFC 5737
  ["203.0.113.0", 24], // documentation, RFC 5737
  ["224.0.0.0", 4], // multicast, RFC 5771
  ["240.0.0.0", 4], // reserved, RFC 1112, and the limited broadcast, RFC 8190
];

/** All that lies outside 2000::/3 is special or unassigned (RFC 4291, RFC 3513); these lie inside. */
const SPECIAL_V6: readonly (readonly [readonly number[], number])[] = [
  [[0x2001, 0x0000], 23], // protocol assignments, Teredo and ORCHID among them, RFC 2928, RFC 4380, RFC 7343
  [[0x2001, 0x0db8], 32], // documentation, RFC 3849
  [[0x2002], 16], // 6to4: holds an IPv4 address, RFC 3056
  [[0x2620, 0x004f, 0x8000], 48], // AS112, RFC 7534
  [[0x3ffe], 16], // the 6bone that was, RFC 3701
  [[0x3fff], 20], // documentation, RFC 9637
];

/** Bits of one group of an IPv6 address, and groups of a whole one. */
const GROUP_BITS = 16;
const GROUPS = 8;

const octetsOf = (dotted: string): number =>
  dotted.split(".").reduce((number, octet) => number * 256 + Number(octet), 0);

/** @param dotted four decimal octets, as the URL parser writes every spelling of them */
export const isSpecialV4 = (dotted: string): boolean => {
  const address = octetsOf(dotted);
  return SPECIAL_V4.some(([network, length]) => {
    const size = 2 ** (32 - length);
    return Math.floor(address / size) === Math.floor(octetsOf(network) / size);
  });
};

/** @param text as the URL parser writes it: small hexadecimal groups, no dots, at most one `::` */
const groupsOf = (text: string): readonly number[] => {
  const [head = [], tail] = text.split("::").map((half) => half.split(":").filter((group) => group !== ""));
  const zeros = tail ? Array<string>(Math.max(0, GROUPS - head.length - tail.length)).fill("0") : [];
  return [...head, ...zeros, ...(tail ?? [])].map((group) => Number.parseInt(group, 16));
};

const startsWith = (groups: readonly number[], network: readonly number[], length: number): boolean => {
  for (let index = 0; index * GROUP_BITS < length; index++) {
    const bits = Math.min(GROUP_BITS, length - index * GROUP_BITS);
    const shift = GROUP_BITS - bits;
    if ((groups[index] ?? 0) >> shift !== (network[index] ?? 0) >> shift) return false;
  }
  return true;
};

/** @param text the address without its brackets, as the URL parser writes it */
export const isSpecialV6 = (text: string): boolean => {
  const groups = groupsOf(text);
  if (!startsWith(groups, [0x2000], 3)) return true;
  return SPECIAL_V6.some(([network, length]) => startsWith(groups, network, length));
};
