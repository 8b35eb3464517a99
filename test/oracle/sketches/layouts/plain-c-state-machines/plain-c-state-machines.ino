// Two .c files with the same names inside: structs, enumerations, static functions, tentative definitions.
extern "C" {
void heater_turn(void);
void vent_turn(void);
void machines_start(void);
}
void setup() { machines_start(); }
void loop() {
  heater_turn();
  vent_turn();
  delay(20);
}
