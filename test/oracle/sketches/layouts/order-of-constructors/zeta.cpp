#include "stage.h"
static Stage third(2, &base), fourth(5, &base);
