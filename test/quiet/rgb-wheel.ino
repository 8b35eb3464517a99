// A lamp of three colours that goes round the colour wheel.
#define RED 9
#define GREEN 10
#define BLUE 11

void colour(byte r, byte g, byte b) {
  analogWrite(RED, 255 - r);
  analogWrite(GREEN, 255 - g);
  analogWrite(BLUE, 255 - b);
}

void wheel(byte at) {
  at = 255 - at;
  if (at < 85) {
    colour(255 - at * 3, 0, at * 3);
  } else if (at < 170) {
    at -= 85;
    colour(0, at * 3, 255 - at * 3);
  } else {
    at -= 170;
    colour(at * 3, 255 - at * 3, 0);
  }
}

void setup() {
  pinMode(RED, OUTPUT);
  pinMode(GREEN, OUTPUT);
  pinMode(BLUE, OUTPUT);
}

void loop() {
  for (int i = 0; i < 256; i++) {
    wheel(i);
    delay(20);
  }
}
