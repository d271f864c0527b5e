#include "options.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int read_options(struct options *o, int argc, char **argv) {
  int i;
  o->baud = 500000;
  o->speed = 0;
  o->seed = 1;
  o->seq0 = o->tick0 = 0;
  o->channels = 5;
  o->reset_on_open = o->bus_powered = 0;
  o->id = "sb-host-1";
  o->serial = "SB0001";
  o->vid = "1209";
  o->pid = "0001";
  o->store = o->tap = o->times = NULL;
  for (i = 1; i < argc; i++) {
    const char *name = argv[i];
    const char *value = i + 1 < argc ? argv[i + 1] : NULL;
    if (!strcmp(name, "--reset-on-open")) {
      o->reset_on_open = 1;
      continue;
    }
    if (!strcmp(name, "--bus-powered")) {
      o->bus_powered = 1;
      continue;
    }
    if (value == NULL) {
      fprintf(stderr, "%s: unknown, or its value is missing\n", name);
      return 0;
    }
    i++;
    if (!strcmp(name, "--baud")) o->baud = (uint32_t)strtoul(value, NULL, 10);
    else if (!strcmp(name, "--speed")) o->speed = (uint32_t)strtoul(value, NULL, 10);
    else if (!strcmp(name, "--seed")) o->seed = (uint32_t)strtoul(value, NULL, 10);
    else if (!strcmp(name, "--seq0")) o->seq0 = (uint32_t)strtoul(value, NULL, 10);
    else if (!strcmp(name, "--tick0")) o->tick0 = (uint32_t)strtoul(value, NULL, 10);
    else if (!strcmp(name, "--channels")) o->channels = atoi(value);
    else if (!strcmp(name, "--id")) o->id = value;
    else if (!strcmp(name, "--serial")) o->serial = value;
    else if (!strcmp(name, "--vid")) o->vid = value;
    else if (!strcmp(name, "--pid")) o->pid = value;
    else if (!strcmp(name, "--store")) o->store = value;
    else if (!strcmp(name, "--tap")) o->tap = value;
    else if (!strcmp(name, "--times")) o->times = value;
    else {
      fprintf(stderr, "%s: unknown\n", name);
      return 0;
    }
  }
  if (o->channels != 2 && o->channels != 4 && o->channels != 5) {
    fprintf(stderr, "--channels: 2 (pressure and supply), 4 (and sleeve with its junction) or 5 (and air)\n");
    return 0;
  }
  if (strlen(o->id) < 1 || strlen(o->id) > 16) {
    fprintf(stderr, "--id: 1 to 16 characters\n");
    return 0;
  }
  return 1;
}
