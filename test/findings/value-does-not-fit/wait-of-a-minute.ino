const int seconds = 60;
void setup() { pinMode(9, OUTPUT); }
void loop() { analogWrite(9, 200); delay(seconds * 1000); analogWrite(9, 10); delay(1000); }
//=                                      ^^^^^^^^^^^^^^ finding value-does-not-fit "60 * 1000 is 60000, too large for a 16-bit int: it becomes -5536"
//= fix "Write 1000L"
