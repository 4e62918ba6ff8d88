/** Calls the default function of the module that is named with the JSON on standard input; writes what it returns. */

import process from "node:process";
import { pathToFileURL } from "node:url";

const { default: probe } = await import(pathToFileURL(process.argv[2]).href);
let given = "";
process.stdin.setEncoding("utf-8");
for await (const part of process.stdin) given += part;
process.stdout.write(JSON.stringify((await probe(JSON.parse(given))) ?? null));
