/* The main loop, where a board's own is no other. */
#include "least.h"

int main(void) {
  for (;;) least();
}
