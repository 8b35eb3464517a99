void setup() {
  pinMode(9, OUTPUT);
  TCCR1B &= !(1 << CS11);
//= finding odd-operator "! makes the mask 0 or 1, so &= clears all bits of TCCR1B but perhaps the lowest: 0x03 → 0x00"
//= fix "Write ~ in place of !"
  TCCR1B |= (1 << CS10);
}
void loop() { analogWrite(9, 11); }
