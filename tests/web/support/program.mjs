// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The program, serving a folder of jobs of its own: one for each story.
import { spawn } from 'node:child_process';
import { cp, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

export const repository = fileURLToPath(new URL('../../..', import.meta.url));
/** What is tested; without POISE_PROGRAM the release that `./demo` builds. */
export const program = process.env.POISE_PROGRAM ?? join(repository, 'build/release/poise');

/** The address that the program prints once it listens. */
function address(child) {
  return new Promise((resolve, reject) => {
    let said = '';
    createInterface({ input: child.stdout }).on('line', (line) => {
      said += `${line}\n`;
      const found = /http:\/\/127\.0\.0\.1:\d+\/\w+\//.exec(line);
      if (found) resolve(found[0]);
    });
    child.once('error', reject);
    child.once('exit', (code) => reject(new Error(`${program} ended with ${code} before it listened:\n${said}`)));
  });
}

/**
 * Opens a folder that holds `jobs` (file name to text, or to the path of a file to copy), with `first` shown first.
 * `read` and `write` are the editor beside the page: they go past the program.
 */
export async function openFolder(jobs = {}, first = null) {
  const folder = await mkdtemp(join(tmpdir(), 'poise-story-'));
  for (const [name, job] of Object.entries(jobs)) {
    if (job.includes('\n')) await writeFile(join(folder, name), job);
    else await cp(job, join(folder, name));
  }
  const child = spawn(program, ['open', first ? join(folder, first) : folder, '--no-browser'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  async function end() {
    child.kill('SIGTERM');
    await ended;
    await rm(folder, { recursive: true });
  }
  try {
    return {
      address: await address(child),
      folder,
      end,
      read: (name) => readFile(join(folder, name), 'utf8'),
      /** As editors save: the new file takes the place of the old one. */
      async write(name, text) {
        await writeFile(join(folder, `${name}.new`), text);
        await rename(join(folder, `${name}.new`), join(folder, name));
      },
    };
  } catch (error) {
    child.kill('SIGTERM');
    await rm(folder, { recursive: true });
    throw error;
  }
}

/** A job of the house. */
export const job = (name) => join(repository, 'jobs', name);
/** A starting point, as the page offers it. */
export const start = (name) => join(repository, 'src/compose/starts', name);
export const here = dirname(fileURLToPath(import.meta.url));
