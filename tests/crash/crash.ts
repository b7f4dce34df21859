/**
 * `npm run crash -- [KILLS] [--seed SEED]`: kills the whole service at random moments of reading, recording and restarting,
 * and judges after every restart what it still knows. The dice follow the seed; the machine's own time does not, so that
 * a seed gives the same load and not the same moments. Exit status 1: something was wrong, and is named.
 */
import { runCrashes } from "./runCrashes.ts";

const args = process.argv.slice(2);
const seedAt = args.indexOf("--seed");
const SEED = Number(seedAt < 0 ? 1 : args[seedAt + 1]);
const KILLS = Number(args.find((arg, at) => /^\d+$/.test(arg) && args[at - 1] !== "--seed") ?? 200);
const FAULTS_SHOWN = 20;

for (const [name, number] of Object.entries({ KILLS, "--seed": SEED })) {
  if (Number.isSafeInteger(number) && number >= 1) continue;
  console.error(`${name} must be a whole number from 1; write it as in 20 --seed 7.`);
  process.exit(2);
}

const began = performance.now();
const { tally, starts } = await runCrashes(KILLS, SEED, (line) => console.log(line));
const { counts, faults } = tally;
const median = starts.toSorted((one, other) => one - other)[Math.floor(starts.length / 2)] ?? 0;
console.log(`
Seed ${SEED}, ${Math.round((performance.now() - began) / 1000)} s, a restart in ${Math.round(median)} ms (median)
kills                    ${counts.kills}, of them while the service started ${counts.killsInStart}
salons, judgements       ${counts.salons}, ${counts.judgements}
records acknowledged     ${counts.records}
answers acknowledged     ${counts.screenings} sets
cut off of these         ${counts.keptOfCut} kept, ${counts.notKeptOfCut} not kept
refused of these         ${counts.refused}
pushes acknowledged      ${counts.pushes}; held back ${counts.held}; diaries taken away ${counts.drops}
cut off of these         ${counts.cutPushesApplied} applied, ${counts.cutPushesNotApplied} not applied
settings acknowledged    ${counts.settings}; cut off: ${counts.cutSettingsKept} kept, ${counts.cutSettingsNotKept} not kept
plans compared           ${counts.plans}
feeds judged             ${counts.feeds}, of them ${counts.wholeFeeds} with all their events; 304 answered ${counts.unchanged}
events compared          ${counts.events}
faults                   ${faults.length}`);
for (const fault of faults.slice(0, FAULTS_SHOWN)) console.log(`  ${fault}`);
process.exit(faults.length > 0 ? 1 : 0);
