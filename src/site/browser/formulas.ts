// Styles of the formulas set at build, for pages that have any.
import 'virtual:formula-styles.css';
