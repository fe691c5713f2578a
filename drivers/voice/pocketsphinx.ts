import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type Koffi from 'koffi';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spread } from './cepstra.ts';
import { VoiceError } from './voice-error.ts';

/** Where Linux distributions and package managers put the library. */
const LIBRARIES = ['libpocketsphinx.so.3', 'libpocketsphinx.so', 'libpocketsphinx.3.dylib', 'libpocketsphinx.dylib'];
const BASES = ['libsphinxbase.so.3', 'libsphinxbase.so', 'libsphinxbase.3.dylib', 'libsphinxbase.dylib'];
const MODELS = [
  '/usr/share/pocketsphinx/model/en-us',
  '/usr/local/share/pocketsphinx/model/en-us',
  '/opt/homebrew/share/pocketsphinx/model/en-us',
];

/**
 * Wider than the library's own: in noise the right words at first look worse than others, and were dropped before they were
 * heard out, or every path was. It costs about twice the time.
 */
const BEAMS = { '-beam': '1e-64', '-wbeam': '1e-48', '-pbeam': '1e-64' } as const;

/** One word of what was heard; frames are hundredths of a second. */
export interface HeardWord {
  readonly word: string;
  readonly from: number;
  readonly to: number;
}

export interface Hypothesis {
  /** lower-case words separated by single spaces; '' when nothing was made out */
  readonly text: string;
  readonly words: readonly HeardWord[];
  /** log score of the best path, higher is better, only to be compared over the same sound */
  readonly score: number;
}

/** A loaded recogniser. Not safe to share between threads. */
export interface Pocketsphinx {
  /** Makes a search ready under a name, once. `text`: its grammar, whose own name is `search`. */
  readonly prepare: (name: string, text: () => string) => void;
  /** What one whole utterance is, with the search of this name. `pcm`: 16 kHz, mono, signed 16 bit. */
  readonly recognise: (name: string, pcm: Int16Array) => Hypothesis;
  readonly close: () => void;
}

type Native = (...values: unknown[]) => unknown;

/**
 * Loads the recogniser of this system.
 * @throws VoiceError not-installed, or cannot-start when the library refuses its model
 */
export function openPocketsphinx(models: readonly string[] = MODELS): Pocketsphinx {
  const model = models.find((each) => existsSync(join(each, 'en-us', 'mdef')));
  if (model === undefined) throw new VoiceError('not-installed', 'the English model of pocketsphinx was not found');
  const koffi = createRequire(import.meta.url)('koffi') as typeof Koffi;
  const load = (names: readonly string[]) => {
    for (const name of names) {
      try {
        return koffi.load(name);
      } catch {
        // the next name
      }
    }
    throw new VoiceError('not-installed', `none of ${names.join(', ')} was found`);
  };
  const base = load(BASES);
  const sphinx = load(LIBRARIES);
  const bind = (library: typeof base, declaration: string): Native => library.func(declaration) as Native;
  const quiet = bind(base, 'void err_set_logfp(void *file)');
  const options = bind(base, 'void *cmd_ln_init(void *in, const void *defn, int strict, ...)');
  const readGrammar = bind(base, 'void *fsg_model_readfile(const char *file, void *lmath, float lw)');
  const args = bind(sphinx, 'const void *ps_args(void)');
  const init = bind(sphinx, 'void *ps_init(void *config)');
  const free = bind(sphinx, 'int ps_free(void *ps)');
  const logmath = bind(sphinx, 'void *ps_get_logmath(void *ps)');
  const setGrammar = bind(sphinx, 'int ps_set_fsg(void *ps, const char *name, void *fsg)');
  const setSearch = bind(sphinx, 'int ps_set_search(void *ps, const char *name)');
  const start = bind(sphinx, 'int ps_start_utt(void *ps)');
  const process = bind(sphinx, 'int ps_process_cep(void *ps, void *cepstra, int frames, int no_search, int full)');
  const frontEnd = bind(sphinx, 'void *ps_get_fe(void *ps)');
  const widthOf = bind(base, 'int fe_get_output_size(void *fe)');
  const cepstraOf = bind(
    base,
    'int fe_process_utt(void *fe, const int16_t *data, size_t n, _Out_ void **cepstra, _Out_ int32_t *frames)',
  );
  const freeCepstra = bind(base, 'void fe_free_2d(void *cepstra)');
  const end = bind(sphinx, 'int ps_end_utt(void *ps)');
  const hypothesis = bind(sphinx, 'const char *ps_get_hyp(void *ps, _Out_ int32_t *score)');
  const firstWord = bind(sphinx, 'void *ps_seg_iter(void *ps)');
  const nextWord = bind(sphinx, 'void *ps_seg_next(void *seg)');
  const wordOf = bind(sphinx, 'const char *ps_seg_word(void *seg)');
  const framesOf = bind(sphinx, 'void ps_seg_frames(void *seg, _Out_ int *from, _Out_ int *to)');

  quiet(null);
  const pairs = {
    '-hmm': join(model, 'en-us'),
    '-dict': join(model, 'cmudict-en-us.dict'),
    '-lw': '10',
    ...BEAMS,
    '-logfn': '/dev/null',
  };
  const variadic = Object.entries(pairs).flatMap(([key, value]) => ['str', key, 'str', value]);
  const decoder = init(options(null, args(), 1, ...variadic, 'void *', null));
  if (decoder === null) throw new VoiceError('cannot-start', 'pocketsphinx refused its model');
  const prepared = new Set<string>();
  let current: string | null = null;
  const width = widthOf(frontEnd(decoder)) as number;

  /** Sound as the search takes it, spread; gives it over and frees it. */
  const processSpread = (pcm: Int16Array): void => {
    const cepstra: [unknown] = [null];
    const frames: [number] = [0];
    cepstraOf(frontEnd(decoder), pcm, pcm.length, cepstra, frames);
    const count = frames[0] * width;
    if (count > 0) {
      // All rows lie one after another, from the first.
      const rows = koffi.decode(cepstra[0], 'void *') as unknown;
      const values = Float32Array.from(koffi.decode(rows, 'float', count) as Float32Array);
      spread(values, width);
      koffi.encode(rows, 'float', values, count);
      process(decoder, cepstra[0], frames[0], 0, 1);
    }
    freeCepstra(cepstra[0]);
  };

  return {
    prepare(name, text) {
      if (prepared.has(name)) return;
      const grammar = inFile(text(), (file) => readGrammar(file, logmath(decoder), 10));
      if (grammar === null || setGrammar(decoder, name, grammar) !== 0) {
        throw new VoiceError('cannot-start', `no search could be made for: ${name}`);
      }
      prepared.add(name);
    },
    recognise(name, pcm) {
      if (current !== name && setSearch(decoder, name) !== 0) {
        throw new VoiceError('cannot-start', `there is no search "${name}"`);
      }
      current = name;
      start(decoder);
      processSpread(pcm);
      end(decoder);
      const score = [0];
      const text = hypothesis(decoder, score) as string | null;
      const words: HeardWord[] = [];
      for (let at = firstWord(decoder); at !== null; at = nextWord(at)) {
        const [from, to] = [[0], [0]];
        framesOf(at, from, to);
        words.push({ word: wordOf(at) as string, from: from[0] ?? 0, to: to[0] ?? 0 });
      }
      return { text: text ?? '', words, score: score[0] ?? 0 };
    },
    close() {
      free(decoder);
    },
  };
}

/** Texts are read from files alone. A process that is killed leaves none behind, unless it is killed while one is read. */
function inFile<Result>(text: string, read: (file: string) => Result): Result {
  const folder = mkdtempSync(join(tmpdir(), 'benchfold-voice-'));
  try {
    const file = join(folder, 'search.fsg');
    writeFileSync(file, text);
    return read(file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
