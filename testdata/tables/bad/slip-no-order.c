// Invented for this project: one number is far off, but the others are no rows that go round.
int limits[] = { 0x08, 0x0C, 0x05, 0x0F, 0x02, 0x00, 0x01, 0x90 };
