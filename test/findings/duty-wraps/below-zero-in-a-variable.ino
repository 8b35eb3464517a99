void setup() { pinMode(5, OUTPUT); }
void loop() { int reading = analogRead(A2); analogWrite(5, reading - 100); delay(10); }
//=                                                        ^^^^^^^^^^^^^ finding duty-wraps "The values -100..923 leave 0..255: 256 and up and what is below 0 wrap in OCR0B"
//= fix "Hold it in 0..255 with constrain"
