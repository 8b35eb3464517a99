/**
 * The pieces that bench sketches are put together from: what hobby sketches of some length consist of (inputs smoothed,
 * tables, state machines, serial commands, small classes, regulators, settings of timers), with comments as dense as people
 * write them. Each piece is told apart by a number, declares what it needs and says what setup and loop call of it.
 */

export interface Piece {
  readonly text: string;
  /** One statement for `setup`, where the piece has one. */
  readonly setup?: string;
  /** One statement for `loop`. */
  readonly loop: string;
}

type Writer = (n: number) => Piece;

const smoothed: Writer = (n) => ({
  text: `
// Soil probe of bed ${n}: the mean of the last eight readings.
const int probe${n} = A${n % 6};
const byte depth${n} = 8;
int history${n}[depth${n}];
byte place${n} = 0;
long total${n} = 0;

int moisture${n}() {
  total${n} -= history${n}[place${n}];
  history${n}[place${n}] = analogRead(probe${n});
  total${n} += history${n}[place${n}];
  place${n} = (place${n} + 1) % depth${n};   // round the ring
  return total${n} / depth${n};
}

void readProbe${n}() {
  int wet = moisture${n}();
  if (wet < ${300 + (n % 40)}) {
    Serial.print(F("bed ${n} is dry: "));
    Serial.println(wet);
  }
}
`,
  loop: `readProbe${n}();`,
});

const table: Writer = (n) => ({
  text: `
/*
 * Brightness as the eye sees it, for lamp ${n}.
 * Steps are uneven on purpose: the lower third matters most.
 */
const uint8_t curve${n}[] PROGMEM = {
  0, 1, 1, 2, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 25,
  29, 33, 38, 43, 49, 55, 61, 68, 75, 83, 91, 99, 108, 117, 127, 137,
  140, 146, 152, 158, 164, 170, 176, 182, 188, 194, 200, 206, 212, 218, 224, 230
};

uint8_t seen${n}(uint8_t wanted) {
  uint8_t at = wanted / 6;
  if (at >= sizeof(curve${n})) at = sizeof(curve${n}) - 1;
  return pgm_read_byte(&curve${n}[at]);
}

void showLamp${n}() {
  // The knob gives ten bits, the table wants eight.
  uint8_t wanted = analogRead(A${n % 6}) >> 2;
  analogWrite(${n % 2 === 0 ? 5 : 6}, seen${n}(wanted));
}
`,
  loop: `showLamp${n}();`,
});

const machine: Writer = (n) => ({
  text: `
// Watering of row ${n}: waits, opens the valve, lets it soak.
enum Row${n} { RESTING_${n}, OPENING_${n}, FLOWING_${n}, SOAKING_${n} };
Row${n} row${n} = RESTING_${n};
unsigned long since${n} = 0;
const int valve${n} = ${n % 2 === 0 ? 7 : 8};

void enter${n}(Row${n} next) {
  row${n} = next;
  since${n} = millis();
}

void waterRow${n}() {
  unsigned long now = millis();
  switch (row${n}) {
    case RESTING_${n}:
      if (now - since${n} > ${60 + n}000UL) enter${n}(OPENING_${n});
      break;
    case OPENING_${n}:
      digitalWrite(valve${n}, HIGH);
      enter${n}(FLOWING_${n});
      break;
    case FLOWING_${n}:
      // Never longer than twenty seconds: the hose holds no more.
      if (now - since${n} > 20000UL) {
        digitalWrite(valve${n}, LOW);
        enter${n}(SOAKING_${n});
      }
      break;
    case SOAKING_${n}:
      if (now - since${n} > 5000UL) enter${n}(RESTING_${n});
      break;
  }
}
`,
  setup: `pinMode(valve${n}, OUTPUT);`,
  loop: `waterRow${n}();`,
});

const commands: Writer = (n) => ({
  text: `
// Commands of channel ${n}: one letter, then digits, then a line end.
char letter${n} = 0;
int number${n} = 0;
bool echo${n} = false;

void obey${n}() {
  if (letter${n} == 'e') {
    echo${n} = number${n} != 0;
  } else if (letter${n} == 'b') {
    analogWrite(11, constrain(number${n}, 0, 255));
  } else if (letter${n} == '?') {
    Serial.print(F("channel ${n}, number "));
    Serial.println(number${n}, DEC);
  } else {
    Serial.println(F("what?"));
  }
}

void listen${n}() {
  while (Serial.available() > 0) {
    char c = Serial.read();
    if (echo${n}) Serial.write(c);
    if (c >= '0' && c <= '9') {
      number${n} = number${n} * 10 + (c - '0');
    } else if (c == '\\n') {
      obey${n}();
      letter${n} = 0;
      number${n} = 0;
    } else {
      letter${n} = c;
    }
  }
}
`,
  loop: `listen${n}();`,
});

const thermostat: Writer = (n) => ({
  text: `
// A switch with two thresholds, so that the relay of bench ${n} does not chatter.
class Thermostat${n} {
public:
  Thermostat${n}(int pin, int below, int above) : pin_(pin), below_(below), above_(above), on_(false) {}

  void begin() {
    pinMode(pin_, OUTPUT);
    digitalWrite(pin_, LOW);
  }

  void judge(int value) {
    if (value < below_) on_ = true;
    else if (value > above_) on_ = false;
    digitalWrite(pin_, on_ ? HIGH : LOW);
  }

  bool isOn() const { return on_; }

private:
  int pin_;
  int below_;
  int above_;
  bool on_;
};

Thermostat${n} heater${n}(${n % 2 === 0 ? 12 : 4}, ${380 + (n % 50)}, ${440 + (n % 50)});
`,
  setup: `heater${n}.begin();`,
  loop: `heater${n}.judge(analogRead(A${(n + 1) % 6}));`,
});

const button: Writer = (n) => ({
  text: `
// Push button ${n}: bounces for some milliseconds, so it is asked twice.
const int button${n} = ${n % 2 === 0 ? 2 : 13};
bool last${n} = HIGH;
unsigned long changed${n} = 0;
int presses${n} = 0;

bool pressed${n}() {
  bool level = digitalRead(button${n});
  if (level != last${n}) {
    changed${n} = millis();
    last${n} = level;
  }
  return level == LOW && millis() - changed${n} > 25;
}

void watchButton${n}() {
  if (pressed${n}()) {
    presses${n}++;
    if (presses${n} > 9) presses${n} = 0;   // one digit on the display
  }
}
`,
  setup: `pinMode(button${n}, INPUT_PULLUP);`,
  loop: `watchButton${n}();`,
});

const regulator: Writer = (n) => ({
  text: `
// Keeps the air of house ${n} at its set point. Gains found by trying.
float gainP${n} = 2.5;
float gainI${n} = 0.125;
float sum${n} = 0;
const float setPoint${n} = ${21 + (n % 5)}.5;

float celsius${n}() {
  int raw = analogRead(A${(n + 2) % 6});
  float volts = raw * 5.0 / 1023.0;
  return (volts - 0.5) * 100.0;
}

int regulate${n}() {
  float error = setPoint${n} - celsius${n}();
  sum${n} += error * gainI${n};
  // The sum must not run away while the vent is at its stop.
  if (sum${n} > 100) sum${n} = 100;
  if (sum${n} < -100) sum${n} = -100;
  float drive = gainP${n} * error + sum${n};
  return constrain((int) drive, 0, 255);
}

void ventilate${n}() {
  int drive = regulate${n}();
  analogWrite(10, drive);
}
`,
  loop: `ventilate${n}();`,
});

const fan: Writer = (n) => ({
  text: `
#define FAN${n}_TOP 320
#define FAN${n}_LIMIT(x) ((x) > FAN${n}_TOP ? FAN${n}_TOP : (x))

// Fan ${n}: 25 kHz on pin 9, sixteen million over twice 320.
void startFan${n}() {
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = FAN${n}_TOP;
  OCR1A = 0;
}

void driveFan${n}(int percent) {
  long ticks = (long) FAN${n}_TOP * percent / 100;
  OCR1A = FAN${n}_LIMIT(ticks);
}

void fanByHeat${n}() {
  int warmth = analogRead(A${n % 6});
  if (warmth < 300) driveFan${n}(20);
  else if (warmth < 600) driveFan${n}(map(warmth, 300, 600, 20, 100));
  else driveFan${n}(100);
}
`,
  setup: `startFan${n}();`,
  loop: `fanByHeat${n}();`,
});

const chimes: Writer = (n) => ({
  text: `
// Counts ${n}: how often each of the sixteen doors was opened.
struct Door${n} {
  byte number;
  unsigned int count;
  bool open;
};

Door${n} doors${n}[16];

void clearDoors${n}() {
  for (byte i = 0; i < 16; i++) {
    doors${n}[i].number = i;
    doors${n}[i].count = 0;
    doors${n}[i].open = false;
  }
}

void countDoors${n}() {
  for (byte i = 0; i < 16; i++) {
    bool open = bitRead(PIND, i & 7);
    if (open && !doors${n}[i].open) doors${n}[i].count++;
    doors${n}[i].open = open;
  }
}
`,
  setup: `clearDoors${n}();`,
  loop: `countDoors${n}();`,
});

const report: Writer = (n) => ({
  text: `
// Line ${n} of the log, once in a while.
unsigned long told${n} = 0;

void tell${n}(const char *name, int value, const char *unit) {
  Serial.print(name);
  Serial.print(": ");
  if (value < 10) Serial.print(' ');    // so that columns line up
  if (value < 100) Serial.print(' ');
  Serial.print(value);
  Serial.print(' ');
  Serial.println(unit);
}

void log${n}() {
  if (millis() - told${n} < 1000) return;
  told${n} = millis();
  tell${n}("light", analogRead(A0) / 4, "%");
  tell${n}("level", analogRead(A1) / 10, "cm");
  Serial.println("---");
}
`,
  loop: `log${n}();`,
});

/** In turn, so that a long sketch has the mixture of a short one. Timer settings are rarer than the rest, as they are in life. */
const order: readonly Writer[] = [
  fan,
  smoothed,
  table,
  machine,
  thermostat,
  commands,
  button,
  regulator,
  chimes,
  report,
  smoothed,
  machine,
  button,
  report,
];

export function pieceNumber(n: number): Piece {
  return order[n % order.length]!(n);
}
