// Invented for this project: these pins are those of the board, and no bits.
// pin 2 = IN1, pin 3 = IN2, pin 4 = IN3, pin 5 = IN4
byte rows[] = { 1, 2, 4, 8 };
