// Every turn makes an object of its own: what it holds is not followed for ever, what the other pins do is.
void setup() { pinMode(3, OUTPUT); pinMode(11, OUTPUT);  }
void loop() { int *p = (int *) malloc(4); *p = 77; analogWrite(3, *p); delay(10); }
