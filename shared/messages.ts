/**
 * What daemon and pages say to each other, as zod schemas: requests, answers, problem details, frames of the live socket. The
 * shapes of the rooms' own types are checked against those types when this is compiled.
 */
export type { KeyView, Role } from './access.ts';
export {
  type KeysAnswer,
  keyRequest,
  keysAnswer,
  madeAnswer,
  type PairingAnswer,
  pairAnswer,
  pairingAnswer,
  pairingRequest,
  pairRequest,
  takenAwayAnswer,
} from './messages/access.ts';
export { checkAnswer, checkItemsRequest, checkRequest } from './messages/check.ts';
export { type PageMessage, pageMessage, type ServerMessage, serverMessage } from './messages/live.ts';
export { neighbourRequest, neighboursAnswer } from './messages/neighbour.ts';
export * from './messages/night.ts';
export { planAnswer, planRequest } from './messages/plan.ts';
export { type Fault, type ProblemDetails, problem } from './messages/problem.ts';
export * from './messages/requests.ts';
export { state } from './messages/state.ts';
export { slacksAnswer, slacksRequest } from './messages/tidal-stream.ts';
export {
  stationAnswer,
  stationQuery,
  stationsAnswer,
  stationsQuery,
  tideAnswer,
  tideRequest,
} from './messages/tide.ts';
export type { State } from './state.ts';
