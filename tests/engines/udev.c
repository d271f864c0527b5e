/* A libudev with one USB serial port, and modem lines for a pseudo-terminal: what Firefox on Linux asks of the system before it lists
   and opens a port, answered from STEADYBAR_PTY. A pseudo-terminal is in no /sys and has no modem lines. For tests alone. */
#define _GNU_SOURCE
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/ioctl.h>
#include <sys/syscall.h>
#include <unistd.h>

typedef struct thing *thing;
struct thing {
  int tty;
};
static struct thing udev, list, entry, device, parent, monitor;
static const char PLACE[] = "/sys/class/tty/ttyUSB0";

thing udev_new(void) { return &udev; }
thing udev_unref(thing t) { return (void)t, (thing)0; }

thing udev_enumerate_new(thing t) { return (void)t, &list; }
int udev_enumerate_add_match_subsystem(thing t, const char *name) { return t->tty = strcmp(name, "tty") == 0, 0; }
int udev_enumerate_scan_devices(thing t) { return (void)t, 0; }
thing udev_enumerate_get_list_entry(thing t) { return t->tty ? &entry : 0; }
thing udev_enumerate_unref(thing t) { return (void)t, (thing)0; }
thing udev_list_entry_get_next(thing t) { return (void)t, (thing)0; }
const char *udev_list_entry_get_name(thing t) { return (void)t, PLACE; }

thing udev_device_new_from_syspath(thing t, const char *path) { return (void)t, strcmp(path, PLACE) == 0 ? &device : 0; }
thing udev_device_unref(thing t) { return (void)t, (thing)0; }
const char *udev_device_get_devnode(thing t) { return (void)t, getenv("STEADYBAR_PTY"); }
const char *udev_device_get_driver(thing t) { return (void)t, "usbserial"; }
const char *udev_device_get_action(thing t) { return (void)t, "add"; }
thing udev_device_get_parent(thing t) { return t == &device ? &parent : 0; }
thing udev_device_get_parent_with_subsystem_devtype(thing t, const char *subsystem, const char *type) {
  return (void)t, (void)subsystem, (void)type, &parent;
}
static const char *told(const char *key) {
  static const char *const SAYS[][2] = {
      {"ID_VENDOR_ID", "1209"},   {"idVendor", "1209"},           {"ID_MODEL_ID", "0001"},
      {"idProduct", "0001"},      {"ID_MODEL", "Emulated board"}, {"ID_MODEL_FROM_DATABASE", "Emulated board"},
      {"product", "Emulated board"}, {"ID_SERIAL_SHORT", "EMU0001"}, {"serial", "EMU0001"},
      {"ID_BUS", "usb"},
  };
  size_t i;
  for (i = 0; i < sizeof SAYS / sizeof SAYS[0]; i++)
    if (strcmp(SAYS[i][0], key) == 0) return SAYS[i][1];
  return 0;
}
const char *udev_device_get_property_value(thing t, const char *key) { return (void)t, told(key); }
const char *udev_device_get_sysattr_value(thing t, const char *key) { return (void)t, told(key); }

/* Nothing comes or goes. */
thing udev_monitor_new_from_netlink(thing t, const char *name) { return (void)t, (void)name, &monitor; }
int udev_monitor_filter_add_match_subsystem_devtype(thing t, const char *subsystem, const char *type) {
  return (void)t, (void)subsystem, (void)type, 0;
}
int udev_monitor_enable_receiving(thing t) { return (void)t, 0; }
int udev_monitor_get_fd(thing t) {
  static int fd = -1;
  (void)t;
  if (fd < 0) fd = eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC);
  return fd;
}
thing udev_monitor_receive_device(thing t) { return (void)t, (thing)0; }
thing udev_monitor_unref(thing t) { return (void)t, (thing)0; }

int ioctl(int fd, unsigned long request, ...) {
  static const int THERE = TIOCM_DSR | TIOCM_CTS | TIOCM_CAR;
  static int lines;
  va_list more;
  void *at;
  va_start(more, request);
  at = va_arg(more, void *);
  va_end(more);
  switch (request) {
    case TIOCMGET:
      *(int *)at = lines | THERE;
      return 0;
    case TIOCMSET:
      lines = *(int *)at;
      return 0;
    case TIOCMBIS:
      lines |= *(int *)at;
      return 0;
    case TIOCMBIC:
      lines &= ~*(int *)at;
      return 0;
    default:
      return (int)syscall(SYS_ioctl, fd, request, at);
  }
}
