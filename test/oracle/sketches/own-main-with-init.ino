int main(void) {
  init();
  pinMode(9, OUTPUT);
  analogWrite(9, 77);
  while (1) {}
}
