/* Invented for this project: half step, low nibble of PORTB, pin 0 = IN1 */
static const uint8_t steps[8] = { 0x01, 0x03, 0x02, 0x06, 0x04, 0x0C, 0x80, 0x09 };
