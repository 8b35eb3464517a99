// bench reads D3: 76.2 kHz
//=  ^^^^^ hover "D3: fits" "76.1905 kHz is predicted when digitalRead(4): a clock error of -0.06..+0.08 %"
// bench reads D3: 114.3 kHz
//=  ^^^^^ hover "114.286 kHz is predicted when not (digitalRead(4)): a clock error of -0.032..+0.057 %"
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS20);
  OCR2B = 70;
}
void loop() {
  if (digitalRead(4)) OCR2A = 209; else OCR2A = 139;
  delay(10);
}
