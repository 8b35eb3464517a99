enum State { IDLE, WARMING, HOLDING, COOLING };
State state = IDLE;
unsigned long since;
const byte valve = 10;

void enter(State next) {
  state = next;
  since = millis();
}

void setup() { pinMode(2, INPUT_PULLUP); }

void loop() {
  switch (state) {
    case IDLE:
      analogWrite(valve, 0);
      if (!digitalRead(2)) enter(WARMING);
      break;
    case WARMING:
      analogWrite(valve, 255);
      if (millis() - since > 5000) enter(HOLDING);
      break;
    case HOLDING:
      analogWrite(valve, 90);
      if (millis() - since > 60000UL) enter(COOLING);
      break;
    case COOLING:
      analogWrite(valve, 20);
      if (millis() - since > 10000) enter(IDLE);
      break;
  }
}
