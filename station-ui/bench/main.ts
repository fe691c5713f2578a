import '../theme/page.css';
import '../theme/bench.css';
import { wearTheme } from '../theme/theme.ts';
import { screenLanguage } from '../i18n/language.ts';
import './bench.ts';
import './choose-bench.ts';
import { keepPage, sayInstallable } from './kept-page.ts';
import { benchOfAddress } from './which-bench.ts';

wearTheme();
document.documentElement.lang = screenLanguage();

const bench = benchOfAddress(new URL(location.href));
if (bench === null) {
  document.body.append(document.createElement('bf-choose-bench'));
} else {
  const shell = document.createElement('bf-bench');
  shell.bench = bench;
  document.body.append(shell);
  sayInstallable(bench);
}
void keepPage();
