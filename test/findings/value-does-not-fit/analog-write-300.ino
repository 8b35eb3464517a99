void setup() {}
void loop() { analogWrite(3, 300); }
//=                          ^^^ finding value-does-not-fit "300 is more than D3 takes (0..255)" "OCR2B becomes 44"
