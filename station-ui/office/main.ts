import '../theme/page.css';
import { wearTheme } from '../theme/theme.ts';
import { screenLanguage, wordsOf } from '../i18n/language.ts';
import './door.ts';

wearTheme();
const language = screenLanguage();
document.documentElement.lang = language;
document.title = `Benchfold · ${wordsOf(language).office.title}`;
document.body.append(document.createElement('bf-office-door'));
