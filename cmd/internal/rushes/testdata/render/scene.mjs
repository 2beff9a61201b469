// scene is the set: the lantern of six panes on a turntable, on a table, before a wall. Lengths
// are mm; x goes to the right, y up, z from the table's axis to where the lens stands.
import * as THREE from "three";

// What is drawn at random comes from a seed, so that it is the same each time: a linear congruence
// modulo 2^32, of which the upper bits are good enough to paint with. Any odd increment and any
// multiplier that is 1 modulo 4 go through all of it (T. E. Hull and A. R. Dobell, SIAM Review
// 4:230-254, 1962, DOI 10.1137/1004061).
function chance(seed) {
  let state = Math.imul(seed, 0x9e3779b1);
  const next = () => (state = (Math.imul(state, 0x19660d) + 0x3c6ef35f) >>> 0) / 2 ** 32;
  for (let n = 0; n < 8; n++) next(); // seeds that are neighbours begin alike
  return next;
}

/** Something painted: ground, then what each painter paints. */
function painted(wide, high, ground, ...painters) {
  const canvas = Object.assign(document.createElement("canvas"), { width: wide, height: high });
  const brush = canvas.getContext("2d", { willReadFrequently: true }); // which has it painted without a detour
  brush.fillStyle = ground;
  brush.fillRect(0, 0, wide, high);
  for (const paint of painters) paint(brush, wide, high);
  return canvas;
}

const gray = (v, alpha) => `rgba(${v}, ${Math.round(0.9 * v)}, ${Math.round(0.7 * v)}, ${alpha})`;

/** Soft spots, of radii up to a share of the width. */
const spots = (seed, count, largest) => (brush, wide, high) => {
  const random = chance(seed);
  for (let n = 0; n < count; n++) {
    const x = random() * wide, y = random() * high, r = (0.1 + 0.9 * random() ** 3) * largest * wide;
    const v = Math.round(255 * random());
    const soft = brush.createRadialGradient(x, y, 0, x, y, r);
    soft.addColorStop(0, gray(v, 0.7));
    soft.addColorStop(0.7, gray(v, 0.4));
    soft.addColorStop(1, gray(v, 0));
    brush.fillStyle = soft;
    brush.fillRect(x - r, y - r, 2 * r, 2 * r);
  }
};

/** Scratches. */
const strokes = (seed, count, length) => (brush, wide, high) => {
  const random = chance(seed);
  for (let n = 0; n < count; n++) {
    brush.strokeStyle = gray(Math.round(255 * random()), 0.6);
    brush.lineWidth = (0.002 + 0.006 * random()) * wide;
    const x = random() * wide, y = random() * high, a = 2 * Math.PI * random();
    brush.beginPath();
    brush.moveTo(x, y);
    brush.lineTo(x + length * wide * Math.cos(a), y + length * wide * Math.sin(a));
    brush.stroke();
  }
};

/** Leading round a pane and across it. */
const leads = (brush, wide, high) => {
  brush.strokeStyle = "#2a2118";
  brush.lineWidth = 0.08 * wide;
  brush.strokeRect(0, 0, wide, high);
  brush.lineWidth = 0.02 * wide;
  brush.beginPath();
  brush.moveTo(0, 0.3 * high);
  brush.lineTo(wide, 0.3 * high);
  brush.moveTo(0.5 * wide, 0.3 * high);
  brush.lineTo(0.5 * wide, high);
  brush.stroke();
};

function surface(canvas, sharp, shine) {
  const map = new THREE.CanvasTexture(canvas);
  map.colorSpace = THREE.SRGBColorSpace;
  map.anisotropy = sharp;
  return shine ? new THREE.MeshPhongMaterial({ map, shininess: shine, specular: 0x404040 }) : new THREE.MeshLambertMaterial({ map });
}

/** The panes are nearly alike: most of what is on one is on all. */
function pane(n, sharp) {
  return surface(painted(512, 1024, "#b08d57", spots(11, 160, 0.12), strokes(12, 40, 0.2), spots(20 + n, 14, 0.1), leads), sharp, 20);
}

function lantern({ radius, height }, sharp) {
  const group = new THREE.Group();
  const side = radius, inner = radius * Math.cos(Math.PI / 6); // of a hexagon
  for (let n = 0; n < 6; n++) {
    const face = new THREE.Mesh(new THREE.PlaneGeometry(side, height), pane(n, sharp));
    face.rotation.y = (n * Math.PI) / 3; // the first looks at the lens
    face.position.set(inner * Math.sin(face.rotation.y), height / 2, inner * Math.cos(face.rotation.y));
    group.add(face);
  }
  const roof = new THREE.Mesh(new THREE.ConeGeometry(1.1 * radius, 0.4 * radius, 6), surface(painted(512, 128, "#8a6a3a", strokes(31, 60, 0.1)), sharp, 20));
  roof.position.y = height + 0.2 * radius;
  const plate = new THREE.Mesh(new THREE.CylinderGeometry(1.6 * radius, 1.6 * radius, 4, 96), surface(painted(1024, 1024, "#6d6257", spots(32, 300, 0.04), strokes(33, 80, 0.1)), sharp, 0));
  plate.position.y = -2;
  group.add(roof, plate);
  return group;
}

/** A flat thing, painted; turned is about x: 0 stands, -90 degrees lies. */
function flat(wide, high, canvas, sharp, place, turned = 0) {
  const mesh = new THREE.Mesh(new THREE.PlaneGeometry(wide, high), surface(canvas, sharp, 0));
  mesh.position.set(...place);
  mesh.rotation.x = turned;
  return mesh;
}

export function stage(product, sharp) {
  const scene = new THREE.Scene();
  const turning = lantern(product, sharp);
  const table = flat(1600, 1200, painted(2048, 1536, "#7a6a5a", spots(41, 700, 0.03), strokes(42, 200, 0.04)), sharp, [0, -4, 0], -Math.PI / 2);
  const wall = flat(1600, 1000, painted(2048, 1280, "#5c6670", spots(51, 700, 0.04), strokes(52, 150, 0.05)), sharp, [0, 400, -260]);
  const hand = flat(18, 160, painted(128, 1024, "#c79a7a", spots(61, 60, 0.2), strokes(62, 10, 0.3)), sharp, [0, 30, product.radius + 40]);
  const key = new THREE.DirectionalLight(0xffffff, 2.2);
  key.position.set(300, 350, 400);
  scene.add(turning, table, wall, hand, key, new THREE.AmbientLight(0xffffff, 1.0));
  const place = (s) => {
    turning.rotation.y = (s.table * Math.PI) / 180;
    hand.visible = s.hand !== undefined;
    hand.position.x = s.hand ?? 0;
  };
  return { scene, place };
}
