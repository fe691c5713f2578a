import { Duplex } from 'node:stream';
import { expect, it } from 'vitest';
import { createIndicator } from '#drivers/scale/indicator.ts';
import { massFromDecimal } from '#shared/units/mass.ts';

/** The newest answer of the indicator. */
class Wire extends Duplex {
  said = '';
  override _read(): void {
    // What is asked is pushed from outside.
  }
  override _write(chunk: Buffer, _encoding: string, done: () => void): void {
    this.said = chunk.toString('latin1');
    done();
  }
}

it('never flags a swinging mass as still, even when time passes while a frame is made', async () => {
  let now = 0;
  // Every look at the clock finds it a moment later, so that some frame is made across the moment of settling.
  const clock = { now: () => (now += 0.25), after: () => () => undefined };
  const indicator = createIndicator({
    protocol: 'sma',
    division: massFromDecimal('0.1', 'oz'),
    capacity: massFromDecimal('20', 'lb'),
    unit: 'oz',
    places: 1,
    clock,
  });
  const wire = new Wire();
  indicator.attach(wire);
  for (let load = 0; load < 40; load++) {
    now = 1000 * load + load / 160;
    indicator.emptyPan();
    now += 500;
    indicator.putMass(massFromDecimal('15.9', 'oz'));
    now += 398;
    for (let asked = 0; asked < 16; asked++) {
      wire.push('W\r');
      await new Promise((soon) => setImmediate(soon));
      if (!wire.said.includes('M')) expect(wire.said).toContain(' 15.9oz');
    }
    expect(wire.said).not.toContain('M');
  }
  indicator.stop();
});
