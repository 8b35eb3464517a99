void setup() {
  pinMode(11, OUTPUT);
  // prescaler 64
  TCCR2B = (TCCR2B & 0xF8) | 0x03;
//= finding comment-disagrees "The comment says prescaler 64, but this gives prescaler 32"
//= fix "Set prescaler 64"
//=                          ^^^^ finding bare-number "0x03 sets CS21 and CS20 of TCCR2B (prescaler 32)"
}
void loop() { analogWrite(11, 99); }
