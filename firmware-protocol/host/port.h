/* A serial device that is not there: a pty, and the message that tells programs that it came or went. */
#ifndef PORT_H
#define PORT_H
#include <stddef.h>
#include <stdint.h>

struct port {
  int master; /* -1: none */
  char path[64];
  char name[32], vid[8], pid[8], serial[32];
  int was_open;
};

/* 0, or -1 with errno. */
int port_make(struct port *p);
void port_drop(struct port *p);
/* action "add" or "remove". 0, or -1 with errno (EPERM: needs root). */
int port_announce(const struct port *p, const char *action);
/* 1 while somebody has it open. Call it often: it also cleans up after a close. *opened is set at a new opening. */
int port_is_open(struct port *p, int *opened);
/* The speed that the host has set, bits a second; 0: none of the usual ones. */
uint32_t port_speed(const struct port *p);
#endif
