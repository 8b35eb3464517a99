#define sbi(port, bit) ((port) |= (1 << (bit)))
#define cbi(port, bit) ((port) &= ~(1 << (bit)))
void setup() {
  pinMode(11, OUTPUT);
  cbi(TCCR2B, CS22);
  sbi(TCCR2B, CS21);
  cbi(TCCR2B, CS20);
}
void loop() { analogWrite(11, 12); }
