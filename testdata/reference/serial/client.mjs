// Drives four outputs by the client firmata-io, which is not ours: a row from
// each line of rows.txt, as levels of the pins. Prints what it learned of the board.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { SerialPort } = require("serialport");
class Line extends SerialPort {
  constructor(path) {
    super({ path, baudRate: 57600 });
  }
}
const Board = require("firmata-io")(Line);

const [path, ...numbers] = process.argv.slice(2);
const pins = numbers.map(Number);
const rows = readFileSync("rows.txt", "utf8").trim().split("\n");
const pause = (ms) => new Promise((done) => setTimeout(done, ms));
const answer = (ask) => new Promise((done) => ask(done));
const fail = (why) => {
  console.error(why);
  process.exit(1);
};

setTimeout(() => fail("the board did not answer in 60 s"), 60000).unref();
const board = new Board(path, { reportVersionTimeout: 200 });
board.on("error", fail);
await answer((done) => board.on("ready", done));
console.log(`protocol ${board.version.major}.${board.version.minor}, firmware ${board.firmware.name}`);
board.pins.forEach((pin, number) => {
  if (pin.supportedModes.length > 0) console.log(`pin ${number}: modes ${pin.supportedModes}`);
});
for (const pin of pins) board.pinMode(pin, board.MODES.OUTPUT);
for (const row of rows) {
  pins.forEach((pin, k) => board.digitalWrite(pin, Number(row[k]), true));
  board.flushDigitalPorts();
  await pause(5);
}
for (const pin of pins) {
  await answer((done) => board.queryPinState(pin, done));
  console.log(`pin ${pin}: mode ${board.pins[pin].mode}, level ${board.pins[pin].state}`);
}
const said = answer((done) => Board.SYSEX_RESPONSE[0x0e] = (of) => done([...of.buffer]));
board.sysexCommand([0x0e, 2]);
console.log(`0e: ${(await said).map((b) => b.toString(16).padStart(2, "0")).join(" ")}`);
board.reset();
await pause(100);
board.transport.close(() => process.exit(0));
