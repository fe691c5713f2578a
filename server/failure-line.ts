import { SettingsError } from './settings.ts';
import { StoreError } from './store/store-error.ts';
import { systemErrorLine } from './system-error-line.ts';
import { ConfigError, formatProblems } from '#config/config-error.ts';

/** What the console says when the server cannot start: a line that names the place, what was expected and what was there. */
export function failureLine(error: unknown): string {
  if (error instanceof ConfigError) return formatProblems(error.problems);
  if (error instanceof StoreError || error instanceof SettingsError) return error.message;
  if (error instanceof Error && 'code' in error) {
    const { code } = error;
    const port = 'port' in error ? String(error.port) : '?';
    if (code === 'EADDRINUSE') return `PORT ${port}: expected a free port, found another program on it`;
    if (code === 'ENOTFOUND' || code === 'EADDRNOTAVAIL' || code === 'EAI_AGAIN') {
      const host = 'hostname' in error ? String(error.hostname) : 'address' in error ? String(error.address) : '?';
      return `BENCHFOLD_HOST: expected an address of this computer, found "${host}"`;
    }
    if (code === 'EACCES' && 'syscall' in error && error.syscall === 'listen')
      return `PORT ${port}: this user may not open it; choose one above 1023`;
  }
  const refused = systemErrorLine(error);
  if (refused !== null) return refused;
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
