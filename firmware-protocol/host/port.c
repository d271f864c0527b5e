#define _GNU_SOURCE
#include "port.h"
#include <arpa/inet.h>
#include <errno.h>
#include <fcntl.h>
#include <linux/netlink.h>
#include <poll.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

int port_make(struct port *p) {
  struct termios t;
  int slave;
  const char *name;
  p->was_open = 0;
  p->master = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
  if (p->master < 0) return -1;
  if (grantpt(p->master) != 0 || unlockpt(p->master) != 0 || (name = ptsname(p->master)) == NULL) goto failed;
  snprintf(p->path, sizeof p->path, "%s", name);
  /* Raw from the start, for readers that set nothing; and once opened and closed, so that a hang-up on the master
     tells closed from open. */
  slave = open(p->path, O_RDWR | O_NOCTTY);
  if (slave < 0) goto failed;
  if (tcgetattr(slave, &t) == 0) {
    cfmakeraw(&t);
    tcsetattr(slave, TCSANOW, &t);
  }
  (void)!chmod(p->path, 0666);
  close(slave);
  return 0;
failed:
  close(p->master);
  p->master = -1;
  return -1;
}

void port_drop(struct port *p) {
  if (p->master >= 0) close(p->master);
  p->master = -1;
  p->was_open = 0;
}

static int hung_up(int master) {
  struct pollfd f;
  f.fd = master;
  f.events = 0;
  f.revents = 0;
  return poll(&f, 1, 0) > 0 && (f.revents & POLLHUP) != 0;
}

int port_is_open(struct port *p, int *opened) {
  int open_now;
  *opened = 0;
  if (p->master < 0) return 0;
  open_now = !hung_up(p->master);
  if (p->was_open && !open_now) {
    /* On a pty the exclusive mark outlives the close, and so do bytes nobody read; a real port forgets both. */
    const int slave = open(p->path, O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
    if (slave >= 0) {
      ioctl(slave, TIOCNXCL);
      tcflush(slave, TCIOFLUSH);
      close(slave);
    }
  }
  *opened = open_now && !p->was_open;
  p->was_open = open_now;
  return open_now;
}

uint32_t port_speed(const struct port *p) {
  struct termios t;
  /* On a pty the master shows what the other side has set. */
  if (p->master < 0 || tcgetattr(p->master, &t) != 0) return 0;
  switch (cfgetospeed(&t)) {
    case B9600: return 9600;
    case B57600: return 57600;
    case B115200: return 115200;
    case B500000: return 500000;
    case B1000000: return 1000000;
    default: return 0;
  }
}

/* The hash by which listeners of the udev group filter for a subsystem (MurmurHash2, seed 0). */
static uint32_t murmur2(const char *text) {
  const uint32_t m = 0x5bd1e995u;
  size_t n = strlen(text), i = 0;
  uint32_t h = (uint32_t)n;
  for (; n - i >= 4; i += 4) {
    uint32_t k;
    memcpy(&k, text + i, 4);
    k *= m;
    k ^= k >> 24;
    k *= m;
    h = h * m ^ k;
  }
  if (n > i) {
    size_t j;
    for (j = n - i; j-- > 0;) h ^= (uint32_t)(unsigned char)text[i + j] << (8 * j);
    h *= m;
  }
  h ^= h >> 13;
  h *= m;
  return h ^ h >> 15;
}

static size_t property(char *body, size_t at, size_t size, const char *format, ...) {
  va_list args;
  int n;
  va_start(args, format);
  n = vsnprintf(body + at, size - at, format, args);
  va_end(args);
  return at + (size_t)n + 1; /* the closing NUL parts the properties */
}

int port_announce(const struct port *p, const char *action) {
  static unsigned sequence;
  struct {
    char prefix[8];
    uint32_t magic, header_size, offset, length, subsystem, devtype, bloom_high, bloom_low;
  } head;
  char message[1024];
  char *body = message + sizeof head;
  const size_t room = sizeof message - sizeof head;
  struct sockaddr_nl address;
  size_t n = 0;
  int s, sent;
  if (sequence == 0) sequence = (unsigned)time(NULL);
  n = property(body, n, room, "ACTION=%s", action);
  n = property(body, n, room, "SUBSYSTEM=tty");
  n = property(body, n, room, "SEQNUM=%u", ++sequence);
  n = property(body, n, room, "USEC_INITIALIZED=1");
  n = property(body, n, room, "DEVPATH=/devices/emu/usb1/1-1/1-1:1.0/%s/tty/%s", p->name, p->name);
  /* 4, 64: a range of type "serial" in /proc/tty/drivers. */
  n = property(body, n, room, "MAJOR=4");
  n = property(body, n, room, "MINOR=64");
  n = property(body, n, room, "ID_BUS=usb");
  n = property(body, n, room, "ID_VENDOR_ID=%s", p->vid);
  n = property(body, n, room, "ID_MODEL_ID=%s", p->pid);
  n = property(body, n, room, "ID_MODEL_ENC=Steadybar\\x20device");
  n = property(body, n, room, "ID_SERIAL_SHORT=%s", p->serial);
  n = property(body, n, room, "DEVNAME=%s", p->path);
  memset(&head, 0, sizeof head);
  memcpy(head.prefix, "libudev", 8);
  head.magic = htonl(0xfeedcafeu);
  head.header_size = head.offset = sizeof head;
  head.length = (uint32_t)n;
  head.subsystem = htonl(murmur2("tty"));
  memcpy(message, &head, sizeof head);
  s = socket(AF_NETLINK, SOCK_RAW | SOCK_CLOEXEC, NETLINK_KOBJECT_UEVENT);
  if (s < 0) return -1;
  memset(&address, 0, sizeof address);
  address.nl_family = AF_NETLINK;
  address.nl_groups = 2; /* the udev group */
  sent = (int)sendto(s, message, sizeof head + n, 0, (struct sockaddr *)&address, sizeof address);
  {
    const int why = errno;
    close(s);
    errno = why;
  }
  /* Refused means that nobody listens: the message was right, and a program that starts later will not know. */
  return sent < 0 && errno != ECONNREFUSED ? -1 : 0;
}
