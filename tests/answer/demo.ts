import { readFileSync } from 'node:fs';
import { valueOf } from '../physics/given';
import { migrate } from '../../src/sheet/migrations';
import type { BuildState } from '../../src/sheet/schema';

const sheet = valueOf(migrate(JSON.parse(readFileSync('assets/demo/bramble.json', 'utf8'))));

/** A state of the demo truck: 'locked', 'free', or 'straps', where an axle lift was made on live springs. */
export function demoState(id: 'locked' | 'free' | 'straps'): BuildState {
  const found = sheet.states.find((state) => state.id === id);
  if (!found) throw new Error(`no state ${id}`);
  return found;
}
