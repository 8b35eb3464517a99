int ledPins[] = {2, 4, 7};
void setup() { for (int i = 0; i < 3; i++) pinMode(ledPins[i], OUTPUT); }
void loop() { for (int i = 0; i < 3; i++) analogWrite(ledPins[i], 90); }
//=                                       ^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding pin-without-timer "No timer drives D2, D4 and D7: analogWrite only switches them, low below 128 and high from 128 on"
