import { startChapterMenu } from './chapterMenu.ts';
import { startPartFields } from './partFields.ts';
import { startProjector } from './projector.ts';
import { startReadings } from './readings.ts';
import { startThemeButton } from './themeButton.ts';
import { startWideFormulas } from './wideFormulas.ts';

startThemeButton();
startChapterMenu();
startPartFields();
startProjector();
startWideFormulas();
startReadings();
