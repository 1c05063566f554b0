// Invented for this project: levels by name, and binary constants.
int ports[4] = {B1000, B0100, B0010, B0001};
int rows[][4] = {
  {HIGH, LOW, LOW, LOW},
  {LOW, HIGH, LOW, LOW},
  {LOW, LOW, HIGH, LOW},
  {LOW, LOW, LOW, HIGH}
};
void loop() { digitalWrite(8, HIGH); if (rows[1][2]) { delay(2); } }
