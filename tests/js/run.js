/** Calls the default function of the module that is named with the JSON on standard input; writes what it returns. */

import { readFileSync, writeFileSync } from "node:fs";
import process from "node:process";
import { pathToFileURL } from "node:url";

const { default: probe } = await import(pathToFileURL(process.argv[2]).href);
const found = await probe(JSON.parse(readFileSync(0, "utf-8")));
writeFileSync(1, JSON.stringify(found ?? null));
