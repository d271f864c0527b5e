import { benchDecode } from './decode.ts';
import { print } from './measure.ts';

print('Decoding', benchDecode());
