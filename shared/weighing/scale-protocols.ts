/**
 * What scales speak, by the names that devices.yaml gives them. Each has its row in the table of `drivers/scale/protocol.ts`,
 * which does not compile without it.
 */
export const SCALE_PROTOCOLS = ['continuous', 'sma', 'hid'] as const;
export type ScaleProtocolName = (typeof SCALE_PROTOCOLS)[number];

/** Those that the simulated scale speaks, too. */
export const SIMULATED_PROTOCOLS = ['continuous', 'sma', 'hid'] as const satisfies readonly ScaleProtocolName[];
export type SimulatedProtocol = (typeof SIMULATED_PROTOCOLS)[number];
