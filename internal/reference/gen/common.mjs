// What the node generators share: the header and the CSV.
import { createRequire } from 'node:module';
import { basename } from 'node:path';

// require finds packages through NODE_PATH, so that they can live in a temporary folder.
export const require = createRequire(import.meta.url);

export function version(name) {
  return `${name} ${require(`${name}/package.json`).version}, Node ${process.versions.node}`;
}

export function writeTable({ law, source, version, units, tolerance, notes, columns, rows }) {
  const header = [
    ['law', law],
    ['source', source],
    ['version', version],
    ['generator', `gen/${basename(process.argv[1])}`],
    ['units', units.join(', ')],
    ...(tolerance ? [['tolerance', tolerance]] : []),
    ...notes.map((note) => ['note', note]),
  ];
  const quote = (cell) => (/[",]/.test(cell) ? `"${String(cell).replaceAll('"', '""')}"` : cell);
  const lines = [
    ...header.map(([key, value]) => `# ${key}: ${value}`),
    columns.join(','),
    ...rows.map((row) => row.map(quote).join(',')),
  ];
  process.stdout.write(lines.join('\n') + '\n');
}
