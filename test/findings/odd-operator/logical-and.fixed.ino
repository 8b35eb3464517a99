void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B & 0xF8 | 0x01;
//=                        ^^^^ finding bare-number "0x01 sets CS20 of TCCR2B (prescaler 1)"
}
void loop() { analogWrite(3, 60); }
