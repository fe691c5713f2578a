/**
 * How much each cepstral coefficient of an utterance varies in a quiet room (standard deviation), as the gate cuts it: mean
 * of a hundred phrases by four synthetic voices of the tuning half.
 */
const QUIET: readonly number[] = [
  12.641, 16.416, 13.583, 18.126, 15.898, 14.312, 14.282, 14.034, 13.651, 11.248, 10.241, 9.804, 9.686,
];

/** How much of the way back to the quiet room: all of it would spread the noise as well. */
const SPREAD = 0.7;

/**
 * Noise fills the valleys between sounds, so that every coefficient varies less than in the speech that the recogniser was
 * trained with. Spreads them again about their means (Viikki and Laurila, "Cepstral domain segmental feature vector
 * normalization", Speech Communication 25, 1998, cited from memory; in part, as the recogniser's model keeps its own scale).
 *
 * @param values frames one after another, `width` coefficients each; changed in place
 */
export function spread(values: Float32Array, width: number): void {
  const frames = values.length / width;
  for (let coefficient = 0; coefficient < width; coefficient += 1) {
    let sum = 0;
    let squares = 0;
    for (let at = coefficient; at < values.length; at += width) {
      const value = values[at] ?? 0;
      sum += value;
      squares += value * value;
    }
    const mean = sum / frames;
    const deviation = Math.sqrt(Math.max(0, squares / frames - mean * mean));
    const quiet = QUIET[coefficient];
    if (quiet === undefined || deviation === 0) continue;
    const gain = (quiet / deviation) ** SPREAD;
    for (let at = coefficient; at < values.length; at += width) values[at] = mean + ((values[at] ?? 0) - mean) * gain;
  }
}
