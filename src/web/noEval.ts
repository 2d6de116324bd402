/** The page's policy forbids code made from text: schemas are told so before the first is made, else each start tries it. */
import { config } from 'zod';

config({ jitless: true });
