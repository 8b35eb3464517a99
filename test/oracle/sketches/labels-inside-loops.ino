// Labels of a switch inside loops and conditions.
int mode = 2;
uint8_t n;
void setup() {
  uint8_t count = 11, *to = (uint8_t *)0, i = 0, out = 0;
  switch (count % 4) {
    case 0: do {
      out += 1;
      case 3: out += 2;
      case 2: out += 4;
      if (out > 100) break;
      case 1: out += 8;
      i++;
    } while (i < 3);
    out++;
  }
  OCR2A = out;
  switch (mode) {
    case 1: if (n) {
      case 2: OCR2B = 5;
      break;
    } else {
      default: OCR2B = 9;
    }
    OCR0A = 1;
  }
  for (uint8_t k = 0; k < 4; k++) switch (k) {
    case 0: {
      case 1: if (k == 1) continue;
    }
    OCR0B = 10 + k;
    break;
    case 3: while (n < 5) {
      n++;
      if (n == 2) continue;
      case 9: OCR1A += n;
    }
  }
}
void loop() {}
