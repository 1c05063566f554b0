// Invented for this project: a table in the high half of the byte, and one row of it in the low one.
unsigned char flap[] = { 0x10, 0x30, 0x20, 0x60, 0x40, 0xC0, 0x08, 0x90 };
