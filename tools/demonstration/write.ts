// `node tools/run.mjs tools/demonstration/write.ts`: writes the demonstration parts that are invented by rules.
import { writeFileSync } from 'node:fs';
import { drivesText } from './drives.ts';
import { gearsText } from './gears.ts';
import { motorsText } from './motors.ts';

const folder = 'packages/catalogue/src/demonstration';
const texts = { drives: drivesText(), motors: motorsText(), gears: gearsText() };
for (const [name, text] of Object.entries(texts)) {
  writeFileSync(`${folder}/${name}.yaml`, text);
  console.log(`written  ${folder}/${name}.yaml, ${text.length} characters`);
}
