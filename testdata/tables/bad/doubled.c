// Invented for this project: numbers that double are settings, or masks.
int waits[] = { 3, 6, 12, 24 };
const unsigned char masks[] = { 0x03, 0x06, 0x0C, 0x18 };
int primes[] = { 2, 3, 5, 7, 11, 13, 2, 17 };
