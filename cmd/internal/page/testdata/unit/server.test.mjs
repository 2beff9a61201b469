// What is asked of the program, and how its answers are read.
import { asked, program, refuses } from "./page.mjs";
import assert from "node:assert/strict";
import { test } from "node:test";

location.hash = "#once=word";
sessionStorage.setItem("seamrail-claim", "old");
program.key = { key: "the key" };
let tries = 0;
program["drive/again"] = () => (++tries < 3 ? refuses(409, "still there") : { claim: "new" });
const { GONE, addressOf, ask, askFile, lines, nameShot, pictures } = await import("../../site/script/server.js");

test("the word in the address fetches the key, which goes with every question", async () => {
  assert.equal(asked[0].headers["Seamrail-Key"], "word");
  assert.equal(location.put, "/", "and is gone from the address");
  program.plan = (question) => ({ text: question.text });
  assert.deepEqual(await ask("plan", { text: "A" }), { text: "A" });
  assert.equal(asked.at(-1).headers["Seamrail-Key"], "the key");
  assert.equal(asked.at(-1).headers["Seamrail-Shot"], undefined);
});

test("a question is of the shot that is named, and may be of another", async () => {
  program.start = { file: "x" };
  nameShot("Öl & salt.toml");
  assert.equal(location.put, "/" + addressOf("Öl & salt.toml"));
  await ask("start");
  assert.equal(decodeURIComponent(asked.at(-1).headers["Seamrail-Shot"]), "Öl & salt.toml");
  assert.equal(asked.at(-1).question, undefined);
  program.card = {};
  await ask("card", {}, undefined, "b.toml");
  assert.equal(asked.at(-1).headers["Seamrail-Shot"], "b.toml");
});

test("a refusal has its status, one without words what the status says, and no answer is told as that", async () => {
  program.save = refuses(409, "changed");
  await assert.rejects(ask("save", {}), { name: "Error", status: 409, message: "changed" });
  program.save = () => new Response("<html>", { status: 502, statusText: "Bad Gateway" });
  await assert.rejects(ask("save", {}), { status: 502, message: "Bad Gateway" });
  program.save = () => Promise.reject(new TypeError("network"));
  await assert.rejects(ask("save", {}), { status: 0, message: GONE });
  await assert.rejects(ask("save", {}, AbortSignal.abort()), { name: "AbortError" });
});

const streamed = (...pieces) => new Response(new ReadableStream({ start(to) {
  for (const p of pieces) to.enqueue(p);
  to.close();
} }));

test("lines of a stream are heard one by one, however they are cut", async () => {
  const bytes = new TextEncoder().encode('{"beat":1}\n\n{"beat":2}\n{"drive":{"state":"höchst"}}\n{"beat"');
  program.watch = () => streamed(...Array.from(bytes, (_, i) => bytes.slice(i, i + 1)));
  const heard = [];
  await lines("watch", {}, (news) => heard.push(news));
  assert.deepEqual(heard, [{ beat: 1 }, { beat: 2 }, { drive: { state: "höchst" } }]);
});

/** Pictures as they go over the wire: each after its length, the lowest byte first. */
const packed = (...list) => new Uint8Array(list.flatMap((p) => [p.length % 256, p.length >> 8, 0, 0, ...p]));

for (const size of [1, 3, 7, 9999]) test(`pictures are taken out of a stream in pieces of ${size}`, async () => {
  const sent = [[1, 2, 3], [], Array.from({ length: 300 }, (_, i) => i % 256)];
  const bytes = packed(...sent);
  program.preview = () => {
    const pieces = [];
    for (let i = 0; i < bytes.length; i += size) pieces.push(bytes.slice(i, i + size));
    const answer = streamed(...pieces);
    answer.headers.set("Seamrail-Frames", "0,5,9 of=720");
    return answer;
  };
  const came = [];
  let of = 0;
  await pictures("preview", {}, (data, n) => came.push([n, [...data]]), undefined, undefined, (frames) => (of = frames));
  assert.deepEqual(came, sent.map((p, n) => [n, p]));
  assert.equal(of, 720);
});

test("where there is no picture nothing comes, and no loop is begun", async () => {
  program.preview = () => new Response(null, { status: 204 });
  await pictures("preview", {}, () => assert.fail("a picture"), undefined, undefined, () => assert.fail("a loop"));
});

test("a file has its name", async () => {
  program.export = () => new Response("a,b", { headers: { "Content-Disposition": 'attachment; filename="loop frames.csv"' } });
  const { name, blob } = await askFile("export", {});
  assert.equal(name, "loop frames.csv");
  assert.equal(await blob.text(), "a,b");
  program.export = () => new Response("a,b");
  assert.equal((await askFile("export", {})).name, "seamrail");
});

test("a claim is had back once the page before is gone, and no later than that", async () => {
  const again = await import("../../site/script/again.js");
  assert.equal(await again.regained, "new");
  assert.equal(tries, 3);
  assert.equal(sessionStorage.getItem("seamrail-claim"), "new");
  again.whole();
  again.keepClaim("");
  assert.equal(sessionStorage.getItem("seamrail-claim"), null);
});
