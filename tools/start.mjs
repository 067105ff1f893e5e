// `npm start`: builds the command and the sheet, checks one example machine, so that a newcomer sees a result at once, and
// serves the sheet with all examples. It fails only when something is broken, whatever the verdict on the machine is.
import { bootstrap, runNode, whenStarted } from './bootstrap.mjs';
import { build } from './build.mjs';

const example = 'examples/labeller/machine.yaml';

/** Exit codes of `layshaft check` that mean that it ran to its end: nothing fails, something fails, something unknown. */
const ran = [0, 1, 3];

await whenStarted(import.meta.url, async () => {
  bootstrap();
  await build();
  console.log(`$ npx layshaft check ${example}`);
  const code = runNode('packages/cli/bin/layshaft.js', ['check', example]);
  if (!ran.includes(code)) throw new Error(`layshaft check ended with exit code ${code}: something is broken.`);
  console.log(`
Next: open the address below in a browser, change a number and see what follows,
or see what else the command can do: npx layshaft --help

$ npx layshaft open examples/labeller`);
  process.exitCode = runNode('packages/cli/bin/layshaft.js', ['open', 'examples/labeller']);
});
