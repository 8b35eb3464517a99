// Functions of one name: the file's own, another file's, and one that this file never heard of.
void dim(int percent);
void dim(float share);
static void dim(char letter) { OCR2A = letter - '0'; }
void setup() {
  pinMode(11, OUTPUT);
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  dim('9');
  dim(0.25f);
  dim((uint8_t)50);
}
void loop() { delay(5); }
