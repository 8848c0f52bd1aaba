declare module 'virtual:formula-styles.css';
