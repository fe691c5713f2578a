/** The lines of an address with its postcode, once: an address that has it in a line already is not given a second one. */
export function withPostcode(address: readonly string[], postcode: string): readonly string[] {
  return address.some((line) => line.includes(postcode)) ? address : [...address, postcode];
}
