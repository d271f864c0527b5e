/* Encoder: characters leave one by one; integers by subtraction of powers of ten, as 32-bit division costs an
   8-bit part some 600 cycles a digit. */
#include "steadybar.h"

/* CRC-32C, reflected. On an 8-bit part the 256-entry table takes a third of the cycles of the small ones, because
   it shifts by whole bytes. */
static const uint32_t CRC_TABLE[256] SB_FLASH = {
    0x00000000u, 0xf26b8303u, 0xe13b70f7u, 0x1350f3f4u, 0xc79a971fu, 0x35f1141cu, 0x26a1e7e8u, 0xd4ca64ebu,
    0x8ad958cfu, 0x78b2dbccu, 0x6be22838u, 0x9989ab3bu, 0x4d43cfd0u, 0xbf284cd3u, 0xac78bf27u, 0x5e133c24u,
    0x105ec76fu, 0xe235446cu, 0xf165b798u, 0x030e349bu, 0xd7c45070u, 0x25afd373u, 0x36ff2087u, 0xc494a384u,
    0x9a879fa0u, 0x68ec1ca3u, 0x7bbcef57u, 0x89d76c54u, 0x5d1d08bfu, 0xaf768bbcu, 0xbc267848u, 0x4e4dfb4bu,
    0x20bd8edeu, 0xd2d60dddu, 0xc186fe29u, 0x33ed7d2au, 0xe72719c1u, 0x154c9ac2u, 0x061c6936u, 0xf477ea35u,
    0xaa64d611u, 0x580f5512u, 0x4b5fa6e6u, 0xb93425e5u, 0x6dfe410eu, 0x9f95c20du, 0x8cc531f9u, 0x7eaeb2fau,
    0x30e349b1u, 0xc288cab2u, 0xd1d83946u, 0x23b3ba45u, 0xf779deaeu, 0x05125dadu, 0x1642ae59u, 0xe4292d5au,
    0xba3a117eu, 0x4851927du, 0x5b016189u, 0xa96ae28au, 0x7da08661u, 0x8fcb0562u, 0x9c9bf696u, 0x6ef07595u,
    0x417b1dbcu, 0xb3109ebfu, 0xa0406d4bu, 0x522bee48u, 0x86e18aa3u, 0x748a09a0u, 0x67dafa54u, 0x95b17957u,
    0xcba24573u, 0x39c9c670u, 0x2a993584u, 0xd8f2b687u, 0x0c38d26cu, 0xfe53516fu, 0xed03a29bu, 0x1f682198u,
    0x5125dad3u, 0xa34e59d0u, 0xb01eaa24u, 0x42752927u, 0x96bf4dccu, 0x64d4cecfu, 0x77843d3bu, 0x85efbe38u,
    0xdbfc821cu, 0x2997011fu, 0x3ac7f2ebu, 0xc8ac71e8u, 0x1c661503u, 0xee0d9600u, 0xfd5d65f4u, 0x0f36e6f7u,
    0x61c69362u, 0x93ad1061u, 0x80fde395u, 0x72966096u, 0xa65c047du, 0x5437877eu, 0x4767748au, 0xb50cf789u,
    0xeb1fcbadu, 0x197448aeu, 0x0a24bb5au, 0xf84f3859u, 0x2c855cb2u, 0xdeeedfb1u, 0xcdbe2c45u, 0x3fd5af46u,
    0x7198540du, 0x83f3d70eu, 0x90a324fau, 0x62c8a7f9u, 0xb602c312u, 0x44694011u, 0x5739b3e5u, 0xa55230e6u,
    0xfb410cc2u, 0x092a8fc1u, 0x1a7a7c35u, 0xe811ff36u, 0x3cdb9bddu, 0xceb018deu, 0xdde0eb2au, 0x2f8b6829u,
    0x82f63b78u, 0x709db87bu, 0x63cd4b8fu, 0x91a6c88cu, 0x456cac67u, 0xb7072f64u, 0xa457dc90u, 0x563c5f93u,
    0x082f63b7u, 0xfa44e0b4u, 0xe9141340u, 0x1b7f9043u, 0xcfb5f4a8u, 0x3dde77abu, 0x2e8e845fu, 0xdce5075cu,
    0x92a8fc17u, 0x60c37f14u, 0x73938ce0u, 0x81f80fe3u, 0x55326b08u, 0xa759e80bu, 0xb4091bffu, 0x466298fcu,
    0x1871a4d8u, 0xea1a27dbu, 0xf94ad42fu, 0x0b21572cu, 0xdfeb33c7u, 0x2d80b0c4u, 0x3ed04330u, 0xccbbc033u,
    0xa24bb5a6u, 0x502036a5u, 0x4370c551u, 0xb11b4652u, 0x65d122b9u, 0x97baa1bau, 0x84ea524eu, 0x7681d14du,
    0x2892ed69u, 0xdaf96e6au, 0xc9a99d9eu, 0x3bc21e9du, 0xef087a76u, 0x1d63f975u, 0x0e330a81u, 0xfc588982u,
    0xb21572c9u, 0x407ef1cau, 0x532e023eu, 0xa145813du, 0x758fe5d6u, 0x87e466d5u, 0x94b49521u, 0x66df1622u,
    0x38cc2a06u, 0xcaa7a905u, 0xd9f75af1u, 0x2b9cd9f2u, 0xff56bd19u, 0x0d3d3e1au, 0x1e6dcdeeu, 0xec064eedu,
    0xc38d26c4u, 0x31e6a5c7u, 0x22b65633u, 0xd0ddd530u, 0x0417b1dbu, 0xf67c32d8u, 0xe52cc12cu, 0x1747422fu,
    0x49547e0bu, 0xbb3ffd08u, 0xa86f0efcu, 0x5a048dffu, 0x8ecee914u, 0x7ca56a17u, 0x6ff599e3u, 0x9d9e1ae0u,
    0xd3d3e1abu, 0x21b862a8u, 0x32e8915cu, 0xc083125fu, 0x144976b4u, 0xe622f5b7u, 0xf5720643u, 0x07198540u,
    0x590ab964u, 0xab613a67u, 0xb831c993u, 0x4a5a4a90u, 0x9e902e7bu, 0x6cfbad78u, 0x7fab5e8cu, 0x8dc0dd8fu,
    0xe330a81au, 0x115b2b19u, 0x020bd8edu, 0xf0605beeu, 0x24aa3f05u, 0xd6c1bc06u, 0xc5914ff2u, 0x37faccf1u,
    0x69e9f0d5u, 0x9b8273d6u, 0x88d28022u, 0x7ab90321u, 0xae7367cau, 0x5c18e4c9u, 0x4f48173du, 0xbd23943eu,
    0xf36e6f75u, 0x0105ec76u, 0x12551f82u, 0xe03e9c81u, 0x34f4f86au, 0xc69f7b69u, 0xd5cf889du, 0x27a40b9eu,
    0x79b737bau, 0x8bdcb4b9u, 0x988c474du, 0x6ae7c44eu, 0xbe2da0a5u, 0x4c4623a6u, 0x5f16d052u, 0xad7d5351u,
};

static const uint32_t TENS[9] SB_FLASH = {1000000000u, 100000000u, 10000000u, 1000000u, 100000u, 10000u, 1000u, 100u, 10u};

static const char *const EVENT_WORDS[] = {"boot", "button", "trip", "return", "fault", "hostlost", "hostback"};
static const char *const STATE_WORDS[] = {"unarmed", "armed", "tripped", "silenced"};
static const char *const RESULT_WORDS[] = {"ok", "clamped", "refused", "range", "unknown", "busy"};
SB_EVERY(event, EVENT_WORDS, SB_HOST_BACK);
SB_EVERY(state, STATE_WORDS, SB_IS_SILENCED);
SB_EVERY(result, RESULT_WORDS, SB_BUSY);

uint32_t sb_crc_byte(uint32_t crc, uint8_t byte) {
  return (crc >> 8) ^ SB_FLASH_U32(&CRC_TABLE[(uint8_t)crc ^ byte]);
}

static void out(struct sb_writer *w, uint8_t byte) {
  w->crc = sb_crc_byte(w->crc, byte);
  w->put(w->context, byte);
}

void sb_begin(struct sb_writer *w, char letter) {
  w->crc = 0xffffffffu;
  out(w, (uint8_t)letter);
  out(w, ',');
}

static void digits(struct sb_writer *w, uint32_t value) {
  uint8_t i, started = 0;
  for (i = 0; i < 9; i++) {
    const uint32_t ten = SB_FLASH_U32(&TENS[i]);
    uint8_t digit = '0';
    while (value >= ten) {
      value -= ten;
      digit++;
    }
    if (digit != '0' || started) {
      out(w, digit);
      started = 1;
    }
  }
  out(w, (uint8_t)('0' + (uint8_t)value));
  out(w, ',');
}

void sb_u32(struct sb_writer *w, uint32_t value) {
  digits(w, value);
}

void sb_i32(struct sb_writer *w, int32_t value) {
  if (value < 0) {
    out(w, '-');
    digits(w, 0u - (uint32_t)value);
  } else {
    digits(w, (uint32_t)value);
  }
}

void sb_text(struct sb_writer *w, const char *text) {
  while (*text) out(w, (uint8_t)*text++);
  out(w, ',');
}

void sb_empty(struct sb_writer *w) {
  out(w, ',');
}

static void hex_byte(struct sb_writer *w, uint8_t byte) {
  static const char HEX[] = "0123456789abcdef";
  w->put(w->context, (uint8_t)HEX[byte >> 4]);
  w->put(w->context, (uint8_t)HEX[byte & 15]);
}

void sb_end(struct sb_writer *w) {
  const uint32_t crc = ~w->crc;
  hex_byte(w, (uint8_t)(crc >> 24));
  hex_byte(w, (uint8_t)(crc >> 16));
  hex_byte(w, (uint8_t)(crc >> 8));
  hex_byte(w, (uint8_t)crc);
  w->put(w->context, '\n');
}

static void index_or_empty(struct sb_writer *w, uint8_t index) {
  if (index == SB_NONE)
    sb_empty(w);
  else
    sb_u32(w, index);
}

void sb_put_hello(struct sb_writer *w, const struct sb_hello *h) {
  sb_begin(w, 'H');
  sb_u32(w, h->version);
  sb_text(w, h->device_id);
  sb_text(w, h->firmware);
  sb_u32(w, h->boot_id);
  sb_u32(w, h->uptime);
  sb_u32(w, h->channels);
  sb_u32(w, h->max_rate_hz);
  sb_end(w);
}

void sb_put_channel(struct sb_writer *w, uint8_t index, const struct sb_channel *c) {
  sb_begin(w, 'C');
  sb_u32(w, index);
  sb_text(w, c->quantity);
  sb_text(w, c->place);
  sb_text(w, c->signal);
  index_or_empty(w, c->partner);
  sb_u32(w, c->bits);
  sb_i32(w, c->raw_lo);
  sb_i32(w, c->raw_hi);
  sb_i32(w, c->el_lo);
  sb_i32(w, c->el_hi);
  sb_i32(w, c->range_lo);
  sb_i32(w, c->range_hi);
  sb_u32(w, c->rate_mhz);
  sb_end(w);
}

void sb_put_sample(struct sb_writer *w, const struct sb_sample *s) {
  uint8_t i, bit = 1;
  sb_begin(w, 'S');
  sb_u32(w, s->seq);
  sb_u32(w, s->tick);
  for (i = 0; i < s->channels; i++) {
    if (s->fresh & bit)
      sb_i32(w, s->counts[i]);
    else
      sb_empty(w);
    bit = (uint8_t)(bit << 1);
  }
  sb_u32(w, s->status);
  sb_end(w);
}

void sb_put_event(struct sb_writer *w, const struct sb_event *e) {
  sb_begin(w, 'E');
  sb_u32(w, e->number);
  sb_u32(w, e->tick);
  sb_text(w, EVENT_WORDS[e->code]);
  index_or_empty(w, e->channel);
  if (e->has_value)
    sb_i32(w, e->value);
  else
    sb_empty(w);
  sb_end(w);
}

void sb_put_guard(struct sb_writer *w, uint32_t tick, uint8_t state, const struct sb_limit *limit, uint8_t sounder) {
  sb_begin(w, 'G');
  sb_u32(w, tick);
  sb_text(w, STATE_WORDS[state]);
  if (state == SB_IS_UNARMED) {
    sb_empty(w);
    sb_empty(w);
    sb_empty(w);
  } else {
    sb_u32(w, limit->channel);
    sb_i32(w, limit->counts);
    sb_u32(w, limit->mbar);
  }
  sb_u32(w, sounder);
  sb_end(w);
}

void sb_put_reply(struct sb_writer *w, const struct sb_reply *r) {
  sb_begin(w, 'R');
  sb_u32(w, r->command);
  sb_text(w, RESULT_WORDS[r->result]);
  if (r->has_value)
    sb_i32(w, r->value);
  else
    sb_empty(w);
  sb_end(w);
}

void sb_ring_begin(struct sb_ring *r) {
  r->draft = r->head;
  r->full = 0;
}

void sb_ring_put(void *ring, uint8_t byte) {
  struct sb_ring *r = ring;
  const uint8_t next = (uint8_t)(r->draft + 1);
  if (next == r->tail) r->full = 1;
  if (r->full) return;
  r->data[r->draft] = byte;
  r->draft = next;
}

uint8_t sb_ring_commit(struct sb_ring *r) {
  if (r->full) return 0;
  r->head = r->draft;
  return 1;
}

int16_t sb_ring_take(struct sb_ring *r) {
  uint8_t byte;
  if (r->tail == r->head) return -1;
  byte = r->data[r->tail];
  r->tail = (uint8_t)(r->tail + 1);
  return byte;
}
