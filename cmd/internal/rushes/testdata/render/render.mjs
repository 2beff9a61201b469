// render draws takes with three, in Chromium: node render.mjs FOLDER < order.json, where FOLDER is
// the one that npm has put puppeteer-core and three into.
//
// The order is {width, height, product: {radius, height}, takes: [{out, rate, view, frames}]}: the
// picture in pixels, the lantern in mm, and for each take the file that is written, as YUV4MPEG2 in
// gray, and the angle that the picture has from foot to head, in degrees. A frame is a list of
// samples, of which each row of the picture is the mean:
//
//	{x, y, z, table, roll, hand, from, to}
//
// where the lens is, in mm: to the right, above the table, before the table's axis; how far the
// table has turned, degrees, anticlockwise as it is seen from above; how far the lens has, as who
// looks through it has it, 0 where it is left out; where the middle of a hand is that is before the
// lantern, mm to the right, left out where there is none; and for which rows the sample counts, as
// shares of the height from above, all where they are left out. What is to be seen when, whoever
// orders knows; here it is only drawn.
import { createReadStream, createWriteStream } from "node:fs";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";

const outside = createRequire(join(process.argv[2], "node_modules", "of-the-tests.js"));
const puppeteer = outside("puppeteer-core");
const CHROMIUM = process.env.SEAMRAIL_BROWSER ?? "/usr/bin/chromium-headless-shell";
const SCRIPTS = {
  "/draw.mjs": join(dirname(fileURLToPath(import.meta.url)), "draw.mjs"),
  "/scene.mjs": join(dirname(fileURLToPath(import.meta.url)), "scene.mjs"),
  "/three.mjs": join(dirname(outside.resolve("three")), "three.module.js"),
};
const PAGE = `<!doctype html><script type="importmap">{"imports": {"three": "/three.mjs"}}</script>`;

const order = JSON.parse(await text(process.stdin));
const films = order.takes.map((take) => {
  const film = createWriteStream(take.out);
  film.write(`YUV4MPEG2 W${order.width} H${order.height} F${take.rate} Ip A1:1 Cmono XCOLORRANGE=FULL\n`);
  return film;
});

// What the page has drawn comes back by the way of any page: some frames at a time.
const server = createServer(async (asked, answer) => {
  if (asked.method === "POST") {
    const film = films[Number(asked.url.slice(1))];
    for await (const bytes of asked) film.write(bytes);
    return answer.end();
  }
  const script = SCRIPTS[asked.url];
  answer.setHeader("Content-Type", script ? "text/javascript" : "text/html");
  if (script) createReadStream(script).pipe(answer);
  else answer.end(asked.url === "/" ? PAGE : "");
});
await new Promise((ready) => server.listen(0, "127.0.0.1", ready));

// Everywhere it is drawn by the same renderer, which needs no hardware. There is no sandbox for
// root in a container, and what is opened is our own.
const browser = await puppeteer.launch({
  executablePath: CHROMIUM,
  headless: CHROMIUM.endsWith("shell") ? "shell" : true,
  args: ["--no-sandbox", "--disable-dev-shm-usage", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"],
  protocolTimeout: 600_000,
});
try {
  const page = await browser.newPage();
  page.on("console", (m) => m.type() === "error" && console.error(m.text()));
  await page.goto(`http://127.0.0.1:${server.address().port}/`);
  await page.evaluate(async (o) => (await import("/draw.mjs")).draw(o), order);
} finally {
  await browser.close();
  server.close();
}
await Promise.all(films.map((film) => new Promise((done) => film.end(done))));
