import fc from 'fast-check';

/** The same random cases in every run, so that a red test is a change's own; EXPLORE=1 tries new ones. */
if (process.env['EXPLORE'] === undefined) fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: 20_261_125 });
