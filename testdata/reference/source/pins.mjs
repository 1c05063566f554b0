// Runs pins.py, which runs coil.py, on MicroPython under node.
import { readFileSync } from "node:fs";
import { loadMicroPython } from "@micropython/micropython-webassembly-pyscript/micropython.mjs";

const micropython = await loadMicroPython({ stdout: (line) => console.log(line) });
micropython.FS.writeFile("/coil.py", readFileSync("coil.py"));
micropython.runPython(readFileSync("pins.py", "utf8"));
