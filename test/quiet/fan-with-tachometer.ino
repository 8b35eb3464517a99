// A greenhouse fan with four wires: 25 kHz control on D10, its tachometer measured by input capture? Timer 1 is taken, so
// the tachometer comes in on an external interrupt.
const byte fanPin = 3;
const byte tachPin = 2;
volatile unsigned int turns;

void onTach() { turns++; }

void setup() {
  Serial.begin(115200);
  pinMode(tachPin, INPUT_PULLUP);
  attachInterrupt(digitalPinToInterrupt(tachPin), onTach, FALLING);
  pinMode(fanPin, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2A = 79;
  OCR2B = 40;
}

void loop() {
  unsigned int knob = analogRead(A0);
  OCR2B = map(knob, 0, 1023, 20, 79);
  noInterrupts();
  unsigned int seen = turns;
  turns = 0;
  interrupts();
  Serial.println(seen * 30);
  delay(1000);
}
