// Invented for this project: four rows, and a zero too many in the last.
const STEPS: [u8; 4] = [0x3, 0x6, 0xC, 0x90];
// Either the first or the last row is wrong here.
const OTHER_STEPS: [u8; 4] = [0x3, 0x6, 0xC, 0x18];
