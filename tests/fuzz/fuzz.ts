import { apiCampaign } from './api.ts';
import { configCampaign, recordedCampaign } from './files.ts';
import { type Campaign, print } from './report.ts';
import { decodeCampaign, sentenceCampaign } from './sentences.ts';
import { socketCampaign } from './sockets.ts';

/**
 * `npm run fuzz [NAME [COUNT [SEED]]]`: throws damage at every way into hawse and counts. Without a name all of them in
 * full: 10 million sentences through the decoder and as many through the engine, 130,000 calls and frames, files. Ends with 1 when anything was found.
 */
const CAMPAIGNS: Record<
  string,
  { count: number; run: (count: number, seed: number) => Campaign | Promise<Campaign> }
> = {
  config: { count: 50_000, run: configCampaign },
  recorded: { count: 5000, run: recordedCampaign },
  api: { count: 60_000, run: (count, seed) => apiCampaign(count, seed, false) },
  'api-tls': { count: 20_000, run: (count, seed) => apiCampaign(count, seed, true) },
  socket: { count: 40_000, run: (count, seed) => socketCampaign(count, seed, false) },
  'socket-tls': { count: 10_000, run: (count, seed) => socketCampaign(count, seed, true) },
  decode: { count: 10_000_000, run: decodeCampaign },
  sentences: { count: 10_000_000, run: sentenceCampaign },
};

const [name, count, seed = '20261125'] = process.argv.slice(2);
if (name !== undefined && !Object.hasOwn(CAMPAIGNS, name)) {
  console.log(`there is no campaign "${name}"; allowed: ${Object.keys(CAMPAIGNS).join(', ')}`);
  process.exit(2);
}
let finds = 0;
for (const [called, campaign] of Object.entries(CAMPAIGNS)) {
  if (name !== undefined && called !== name) continue;
  const done = await campaign.run(Number(count ?? campaign.count), Number(seed));
  print(done);
  finds += done.finds.length;
}
process.exit(finds > 0 ? 1 : 0);
