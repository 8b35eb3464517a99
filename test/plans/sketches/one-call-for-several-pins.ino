// wants D9: 2 kHz
const byte leds[] = { 9, 10, 6 };
void setup() { for (byte i = 0; i < 3; i++) pinMode(leds[i], OUTPUT); }
void loop() { for (byte i = 0; i < 3; i++) { analogWrite(leds[i], 40 * (i + 1)); delay(5); } }
