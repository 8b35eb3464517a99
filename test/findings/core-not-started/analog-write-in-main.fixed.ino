int main(void) {
  init();
  DDRD |= (1 << PD5);
  for (;;) { analogWrite(5, 60); }
}
