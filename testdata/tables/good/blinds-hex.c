// Invented for this project: a blind, its rows packed in numbers.
const unsigned char rows[] PROGMEM = { 0x08, 0x0CU, 4UL, 0b0110, 02, 3, 0x1, 9 };
const int stepDelay[] = { 900, 600, 400 };
const int curve[] = { 0, 98, 180, 236, 255, 300 };
const float gain[] = { 0.5, 1.0 };
