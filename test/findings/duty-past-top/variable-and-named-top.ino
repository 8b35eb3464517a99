const int top = 250;
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2A = top;
}
void loop() { int v = analogRead(A0) / 4; analogWrite(3, v); delay(5); }
//=                                                      ^ finding duty-past-top "D3 counts to TOP 250: the values 251..254 all give one constant level, no pulse (4 of 256; at 0 and 255 analog"
//= fix "Scale the duty to 0..250 with map"
