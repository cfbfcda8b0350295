'use strict';
// The page on the phone that is strapped to the dish: sends how the phone is turned, shows what the program says.
// It decides nothing about the dish. What it shows is never older than STALE; what it cannot show it says.

const STALE = 1400;        // ms: guidance older than this is not shown; with a late timer and a frame it is gone by 1.5 s
const DEAD = 3000;         // ms without guidance: the link is given up and opened again
const SEND_GAP = 56;       // ms between two orientations, both kinds together: the program takes twenty a second, and any more would wait there
const COMPASS_GAP = 250;   // ms between two of the compass kind where the other comes too, which gives the shape
const RESEND = 250;        // ms: a still phone fires no events, so the last values are said again with their age
const OLDEST = 600000;     // ms: a greater age is not told
const DRAWN_GAP = 200;     // ms between two reports of what was drawn
const BURST = 150;         // ms: after a hole the oldest comes first; wait for the newest
const AFTER_SHAKE = 300;   // ms: the motor shakes the sensors, and they ring on

const $ = id => document.getElementById(id);
const now = () => performance.now();
const turned = () => ((screen.orientation?.angle ?? window.orientation ?? 0) + 360) % 360;
const place = location.pathname.replace(/[^/]*$/, '');

// ---- What is chosen on this phone -----------------------------------------------------------------------------------

const CHOICES = {
  look: ['night', 'day', 'contrast'], step: ['1', '2', '3'], sound: ['soft', 'loud', 'off'], vibrate: ['on', 'off'], speech: ['off', 'on'],
};
const chosen = { look: 'night', step: '2', sound: 'soft', vibrate: 'on', speech: 'off' };

function loadChoices() {
  try {
    const kept = JSON.parse(localStorage.getItem('cockpit.choices') ?? '{}');
    for (const [name, values] of Object.entries(CHOICES)) if (values.includes(kept[name])) chosen[name] = kept[name];
  } catch (e) { console.info('the choices of this phone are not kept:', e.message); }
}

function showChoices() {
  document.body.dataset.look = chosen.look;
  document.body.dataset.step = chosen.step;
  for (const button of document.querySelectorAll('[data-choice]')) button.querySelector('b').textContent = chosen[button.dataset.choice].toUpperCase();
}

function choose(name) {
  const values = CHOICES[name];
  chosen[name] = values[(values.indexOf(chosen[name]) + 1) % values.length];
  try { localStorage.setItem('cockpit.choices', JSON.stringify(chosen)); } catch (e) { console.info('not kept:', e.message); }
  showChoices();
  if (name === 'sound') sing(OWN.test);
  if (name === 'vibrate') shake([120]);
  if (name === 'speech' && chosen.speech === 'on') speak('speech on');
}

// ---- Orientation ------------------------------------------------------------------------------------------------------

// The last event of each kind: abs is counted from north by the compass, rel from an arbitrary zero, which no steel disturbs.
const last = { abs: null, rel: null };
let said = 0, sendLater = 0, count = 0, shakenUntil = 0, sensor = '';

function heard(event) {
  if (event.alpha === null && event.beta === null && event.gamma === null) return; // no sensor: fired once at the start
  const kind = event.type === 'deviceorientationabsolute' || event.absolute === true ? 'abs' : 'rel';
  // Where there is only an absolute sensor, the plain event repeats it.
  if (event.type === 'deviceorientation' && kind === 'abs' && last.abs?.event === 'deviceorientationabsolute') return;
  const at = event.timeStamp > 0 && event.timeStamp <= now() ? event.timeStamp : now();
  last[kind] = { event: event.type, at, a: event.alpha, b: event.beta, g: event.gamma, h: event.webkitCompassHeading, acc: event.webkitCompassAccuracy, fresh: true, said: last[kind]?.said ?? -Infinity };
  tellSensor('ok');
  sendOrientation();
}

// At once where the last one is long enough ago: a fixed beat would add half of itself to the delay.
function sendOrientation() {
  if (sendLater || document.hidden) return;
  const kind = waitingKind();
  if (!kind) return;
  const wait = said + SEND_GAP - now();
  if (wait <= 0) sayOrientation(kind);
  if (wait > 0 || waitingKind()) sendLater = setTimeout(() => { sendLater = 0; sendOrientation(); }, wait > 0 ? wait : SEND_GAP);
}

function waitingKind() {
  const both = last.rel && now() - last.rel.at < 1000;
  if (last.abs?.fresh && (!both || now() - last.abs.said >= COMPASS_GAP)) return 'abs';
  return last.rel?.fresh ? 'rel' : null;
}

function sayOrientation(kind) {
  const is = last[kind];
  const message = {
    t: 'o', n: count + 1, kind, a: is.a, b: is.b, g: is.g, age: Math.min(OLDEST, Math.max(0, Math.round(now() - is.at))), screen: turned(), shaking: now() < shakenUntil,
  };
  if (typeof is.h === 'number') message.h = is.h;
  if (typeof is.acc === 'number') message.acc = is.acc;
  if (link.say(message)) { count++; said = is.said = now(); is.fresh = false; }
}

// A still phone sends no events, and the only one may have come before the link was open.
function repeatOrientation() {
  if (document.hidden) return; // timers go on there, but the values are dead
  if (!last.abs && !last.rel && now() - listening > 1000 && sensor === 'ok') { listen(false); listen(true); } // a browser may begin without a first event
  for (const kind of Object.keys(last)) if (last[kind] && now() - last[kind].said >= RESEND) last[kind].fresh = true;
  sendOrientation();
}

function tellSensor(is) {
  if (sensor === is) return;
  sensor = is;
  link.say({ t: 'sensor', is });
}

let listening = -Infinity;
function listen(begin) {
  last.abs = last.rel = null;
  listening = begin ? now() : -Infinity;
  for (const name of ['deviceorientationabsolute', 'deviceorientation']) (begin ? addEventListener : removeEventListener)(name, heard);
}

async function beginSensor() {
  let answer = 'granted';
  try {
    if (typeof DeviceOrientationEvent?.requestPermission === 'function') answer = await DeviceOrientationEvent.requestPermission();
  } catch (e) { console.info('orientation:', e.message); answer = 'denied'; }
  if (answer !== 'granted') return tellSensor('denied');
  listen(true);
  setTimeout(() => { if (sensor === '') tellSensor('none'); }, 2000);
}

// ---- The link: a WebSocket, or where that never opens, requests and server-sent events ------------------------------

const link = {
  way: location.search.includes('post') ? 'post' : 'socket', open: false, ended: '', key: '', name: '', backOff: 250, everOpen: false, failures: 0, since: 0, socket: null, hearing: null,
  outgoing: [], posting: false, later: 0,

  begin() {
    clearTimeout(this.later);
    this.ended = '';
    this.key = sessionStorage.getItem('cockpit.key:' + place) ?? '';
    this.since = now();
    if (this.way === 'post') this.beginPost(); else this.beginSocket();
  },

  beginSocket() {
    const socket = this.socket = new WebSocket(`${location.protocol === 'https:' ? 'wss' : 'ws'}://${location.host}${place}link`);
    socket.onopen = () => { if (socket === this.socket) { this.everOpen = true; socket.send(JSON.stringify({ t: 'hello', key: this.key })); } };
    socket.onmessage = message => { if (socket === this.socket) this.take(message.data); };
    socket.onclose = closing => { if (socket === this.socket) this.lost(closing.code); };
  },

  async beginPost() {
    const opening = this.hearing = {};
    try {
      const answer = await this.post({ t: 'hello', key: this.key });
      if (opening !== this.hearing) return;
      if (!answer.ok) return this.lost(answer.status === 401 ? 4003 : 1006);
      this.take(await answer.text());
    } catch (e) { console.info('post:', e.message); return opening === this.hearing && this.lost(1006); }
    const hearing = this.hearing = new EventSource(`${place}hear/${this.key}`);
    hearing.onmessage = message => { if (hearing === this.hearing) this.take(message.data); };
    hearing.onerror = () => { if (hearing === this.hearing) this.lost(1006); };
  },

  post(body) {
    return fetch(place + 'say', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body), signal: AbortSignal.timeout?.(DEAD) });
  },

  take(text) {
    for (const message of [JSON.parse(text)].flat()) {
      if (message.t === 'paired') this.paired(message);
      else if (message.t === 'g') guided(message);
      else if (message.t === 'end') this.lost(message.code);
    }
  },

  paired(message) {
    this.key = message.key;
    sessionStorage.setItem('cockpit.key:' + place, message.key);
    this.open = true;
    this.backOff = 250;
    this.failures = 0;
    this.since = now();
    this.name = message.name;
    lastCue = null; // a program that was started again counts its cues from the beginning
    if (sensor) this.say({ t: 'sensor', is: sensor });
    if (document.hidden) this.say({ t: 'hidden' });
    repeatOrientation();
  },

  // True when it went out. Nothing waits for a link: what is old when it comes is worse than what is missing.
  say(message) {
    if (!this.open) return false;
    if (this.way === 'socket') {
      if (this.socket.bufferedAmount > 4096) return false;
      this.socket.send(JSON.stringify(message));
    } else {
      if (message.t === 'o' && this.posting) return false; // it would grow old in the queue: the newest is asked for again afterwards
      this.outgoing.push(message);
      this.postOutgoing();
    }
    return true;
  },

  async postOutgoing() {
    if (this.posting || this.outgoing.length === 0) return;
    this.posting = true;
    try {
      const answer = await this.post({ key: this.key, m: this.outgoing.splice(0, 8) });
      if (answer.status === 401) this.lost(4003);
    } catch (e) { console.info('post:', e.message); }
    this.posting = false;
    if (!this.open) return;
    this.postOutgoing();
    sendOrientation();
  },

  lost(code) {
    this.close();
    if (code === 4001 || code === 4003) { this.ended = code === 4001 ? 'other' : 'scan'; return finished(); }
    // Some phones never open a socket to a certificate that was accepted by hand.
    if (!this.everOpen && ++this.failures % 2 === 0) this.way = this.way === 'post' ? 'socket' : 'post';
    this.later = setTimeout(() => this.begin(), this.backOff);
    this.backOff = Math.min(2000, this.backOff * 2);
  },

  close() {
    this.open = false;
    this.outgoing = [];
    clearTimeout(this.later);
    this.socket?.close();
    this.hearing?.close?.();
    this.socket = this.hearing = null;
  },

  watch() {
    if (!this.socket && !this.hearing) return;
    if (now() - Math.max(this.since, arrived) > DEAD) this.lost(1006);
  },
};

// ---- What the program says --------------------------------------------------------------------------------------------

let guidance = null, arrived = 0, settled = 0, lastCue = null, running = false, staleTimer = 0, frame = 0, drawnAt = 0, pressed = Number(sessionStorage.getItem('cockpit.presses') ?? 0);

function guided(message) {
  const before = arrived;
  arrived = now();
  // After a hole the network hands over what it held, oldest first: only the newest is for the eyes.
  if (guidance && arrived - before > 500) settled = arrived + BURST;
  guidance = message;
  clearTimeout(staleTimer);
  staleTimer = setTimeout(draw, STALE + 1);
  if (arrived - before > STALE) lastCue = null; // what was called meanwhile is old
  if (arrived >= settled) {
    if (lastCue !== null && message.c !== lastCue) cue(message);
    lastCue = message.c;
  }

  drawSoon();
}

function drawSoon() {
  if (frame || now() < settled) return; // another comes in a tenth of a second
  frame = requestAnimationFrame(() => {
    frame = 0;
    const shown = draw();
    if (shown !== null && now() - drawnAt >= DRAWN_GAP) afterPaint(() => { drawnAt = now(); link.say({ t: 'drawn', n: shown }); });
  });
}

// A message to ourselves from within a frame comes back after that frame was painted.
function afterPaint(then) {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => { port1.close(); then(); };
  port2.postMessage(0);
}

// ---- Drawing ------------------------------------------------------------------------------------------------------------

const SHAPES = { MOVE: 'arrow', NEXT: 'arrow', HOLD: 'disc', SEARCH: 'spiral', WAIT: 'glass', POINT: 'sight', OVER: 'square', NONE: 'bar' };
const TROUBLES = {
  none: 'This phone tells no direction: it only shows what to do.',
  denied: 'Sensors refused: allow motion sensors for this page (iPhone: clear its website data), then load it again.',
};

// Shows what holds now; the number of the guidance that is shown, null where none is.
function draw() {
  if (!running) return null;
  const fresh = guidance !== null && now() - arrived <= STALE && now() >= settled;
  if (!fresh || !link.open) { show({ word: 'NO LINK', shape: 'cross', note: 'The phone does not hear the laptop.' }); return null; }
  const g = guidance;
  const known = Object.hasOwn(SHAPES, g.word);
  const idle = !g.text && (g.word === 'WAIT' || g.word === 'OVER');
  show({ ...g, text: idle ? link.name : g.text, word: g.word === 'NONE' ? 'NO PASS' : g.word, shape: known ? SHAPES[g.word] : 'unknown', note: g.note || (TROUBLES[sensor] ?? '') });
  return g.n;
}

function show(s) {
  document.body.dataset.state = s.word;
  put('word', s.word);
  const total = typeof s.total === 'number' ? `${Math.max(1, Math.round(s.total))}\u00b0` : '';
  put('number', total);
  put('text', (s.text ?? '').replace(/ (?=\d)/g, '\u00a0')); // a word stays with its number
  fit('head', total ? ['word', 'number'] : []);
  fit('text');
  put('when', typeof s.in === 'number' && !s.lost ? `in ${inWords(Math.max(0, Math.ceil(s.in)))}` : '');
  put('signal', !s.lost ? s.signal ?? '' : /\d/.test(s.signal) ? `LOSING ${s.signal}` : (s.signal || 'losing').toUpperCase());
  $('signal').classList.toggle('lost', s.lost === true);
  put('note', s.note ?? '');
  for (const button of document.querySelectorAll('[data-press]')) button.classList.toggle('offered', s.buttons?.includes(button.dataset.press) === true);
  showPicture(s);
}

function put(id, text) { if ($(id).textContent !== text) $(id).textContent = text; }

function inWords(seconds) { return seconds < 100 ? `${seconds} s` : `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`; }

// A line that is too wide gets smaller letters; measured only when it or the page has changed.
const fitted = {};
function fit(id, parts) {
  const shown = `${$(id).textContent} ${innerWidth} ${innerHeight}`;
  if (fitted[id] === shown) return;
  fitted[id] = shown;
  const line = $(id);
  line.style.setProperty('--fit', 1);
  line.style.whiteSpace = 'pre';
  const wide = parts ? parts.reduce((sum, part) => sum + $(part).scrollWidth + 14, 0) : line.scrollWidth;
  if (wide > line.clientWidth) line.style.setProperty('--fit', line.clientWidth / wide);
  line.style.whiteSpace = '';
}

// Clockwise from the top of the page as it is turned now; null for no arrow.
function arrowAngle(s) {
  if (typeof s.arrow !== 'number') return null;
  if (s.flat !== true) return s.arrow - turned();
  // Flat on the boom only left and right can be drawn truly.
  const onPhone = Math.atan2(s.right ?? 0, s.up ?? 0) * 180 / Math.PI;
  return Math.abs(s.right ?? 0) < 0.5 ? null : s.arrow - onPhone + (s.right > 0 ? 90 : -90) - turned();
}

function showPicture(s) {
  const ring = typeof s.ring === 'number' ? Math.min(1, Math.max(0, s.ring)) : null;
  $('picture').classList.toggle('timed', ring !== null);
  if (ring !== null) {
    // What is over is gone from the top clockwise, as a hand sweeps.
    $('seconds').setAttribute('stroke-dasharray', `${100 * ring} 200`);
    $('seconds').setAttribute('transform', `rotate(${-90 + 360 * (1 - ring)})`);
  }

  const angle = arrowAngle(s);
  const lift = s.flat === true && Math.abs(s.up ?? 0) >= 0.5;
  const moves = s.shape === 'arrow';
  const on = new Set([moves && angle === null ? (lift ? null : 'unknown') : s.shape]);
  if (angle !== null && !moves && s.shape !== 'disc') on.add('side');
  if (lift) on.add('lift');
  for (const shape of document.querySelectorAll('.shape')) shape.classList.toggle('on', on.has(shape.id));
  $('arrow').classList.toggle('hollow', s.word === 'NEXT');
  for (const id of ['arrow', 'side']) $(id).setAttribute('transform', `rotate(${angle ?? 0})`);
  // Flat on the boom there is no up on the page: a sign of its own says it, in the middle where it is alone.
  $('lift').setAttribute('transform', `${angle === null ? '' : 'translate(70 70) scale(0.55)'} ${(s.up ?? 0) < 0 ? 'scale(1 -1)' : ''}`.trim());
}

// ---- Sound, vibration, speech: those of the program's own voice ---------------------------------------------------------

// What the phone sounds by itself, as the program writes its notes: start and length in ms, Hz, dB, rich in partials or not.
const OWN = { taken: [[0, 60, 880, 0, 0]], test: [[0, 60, 660, 0, 0], [100, 150, 660, 0, 0]] };
const SHAKES = {
  left: [60, 90, 250], right: [250, 90, 60], up: [60, 60, 60, 60, 60], down: [400], now: [120, 80, 120, 80, 400],
  count: [40], on: [30], caution: [200, 100, 200], alarm: [300, 100, 300, 100, 300],
};
const PARTIALS = { plain: [1, 0.355, 0.178], rich: [1, 0.708, 0.501, 0.355] }; // 0, -9, -15 dB and 0, -3, -6, -9 dB
const SHAKE_GAP = 700, SAME_SHAKE_GAP = 1500;
const shaken = { at: -Infinity, word: '' };
let audio = null, waves = null;

function cue(g) {
  const spoken = chosen.speech === 'on' && g.say && speak(g.say);
  if (!spoken) sing(g.notes);
  const since = now() - shaken.at;
  if (!Object.hasOwn(SHAKES, g.cue) || since < (g.cue === shaken.word ? SAME_SHAKE_GAP : SHAKE_GAP) || !shake(SHAKES[g.cue])) return;
  if (g.cue === 'count' || g.cue === 'on') return; // a tick holds no word back
  shaken.at = now();
  shaken.word = g.cue;
}

function shake(pattern) {
  if (chosen.vibrate !== 'on' || document.hidden || !navigator.vibrate?.(pattern)) return false;
  shakenUntil = now() + pattern.reduce((sum, ms) => sum + ms, 0) + AFTER_SHAKE;
  return true;
}

function speak(text) {
  if (!window.speechSynthesis || speechSynthesis.getVoices().length === 0) return false;
  speechSynthesis.cancel();
  speechSynthesis.speak(new SpeechSynthesisUtterance(text));
  return true;
}

function sing(notes) {
  if (!audio || audio.state !== 'running' || chosen.sound === 'off' || !Array.isArray(notes)) return;
  const begin = audio.currentTime + 0.01;
  for (const [start, length, hertz, decibels, rich] of notes) note(begin + start / 1000, length / 1000, hertz, decibels, rich ? 'rich' : 'plain');
}

function note(at, seconds, hertz, decibels, timbre) {
  waves ??= Object.fromEntries(Object.entries(PARTIALS).map(([name, gains]) => [name, audio.createPeriodicWave(new Float32Array(gains.length + 1), new Float32Array([0, ...gains]))]));
  const tone = audio.createOscillator(), level = audio.createGain();
  tone.setPeriodicWave(waves[timbre]);
  tone.frequency.value = hertz;
  const loud = (chosen.sound === 'loud' ? 0.8 : 0.2) * 10 ** (decibels / 20);
  level.gain.setValueAtTime(0, at);
  level.gain.linearRampToValueAtTime(loud, at + 0.01);
  level.gain.setValueAtTime(loud, at + seconds - 0.02);
  level.gain.linearRampToValueAtTime(0, at + seconds);
  tone.connect(level).connect(audio.destination);
  tone.start(at);
  tone.stop(at + seconds);
}

// ---- The phone: awake, seen, touched ------------------------------------------------------------------------------------

let lock = null;

async function stayAwake() {
  try { lock = await navigator.wakeLock?.request('screen') ?? null; } catch (e) { console.info('the screen may go dark:', e.message); }
}

function go(screenName) { document.body.dataset.screen = screenName; }

// One touch: browsers give sensors, sound and vibration only for one.
async function begin() {
  audio ??= window.AudioContext ? new AudioContext() : null;
  audio?.resume();
  running = true;
  guidance = lastCue = null;
  go('aim');
  draw();
  shake([40]);
  stayAwake();
  await beginSensor();
  link.begin();
}

function rest() {
  running = false;
  link.close();
  listen(false);
  sensor = '';
  lock?.release();
  lock = null;
}

function end(trouble) {
  rest();
  put('trouble', trouble);
  go('start');
}

// The program has closed the link for good.
function finished() {
  if (link.ended === 'scan') return end('This code is used up. Scan the code on the laptop again.');
  rest();
  show({ word: 'OTHER PHONE', shape: 'phones', note: 'Another phone has taken over; this one is not heard any more.' });
  go('aim');
}

function press(button) {
  pressed++;
  sessionStorage.setItem('cockpit.presses', pressed);
  if (!link.say({ t: 'press', key: button.dataset.press, n: pressed })) return;
  button.classList.add('told');
  setTimeout(() => button.classList.remove('told'), 400);
  sing(OWN.taken);
  shake([40]);
}

function seen() {
  if (!running) return;
  if (document.hidden) { link.say({ t: 'hidden' }); return; }
  link.say({ t: 'shown' });
  draw();
  stayAwake();
  audio?.resume();
  listen(false); // what came before is dead; listening anew brings an event even from a still phone
  if (sensor === 'ok') listen(true);
}

let choicesUntil = 0;
function openChoices() { choicesUntil = now() + 20000; go('choices'); }

loadChoices();
showChoices();
if (!isSecureContext) put('trouble', 'This page came without https, so the phone will not tell its direction. Open the address that begins with https.');
$('go').onclick = begin;
$('menu').onclick = openChoices;
$('back').onclick = () => go('aim');
$('stop').onclick = () => { link.say({ t: 'bye' }); end('Stopped. START begins again.'); };
for (const button of document.querySelectorAll('[data-choice]')) button.onclick = () => { choicesUntil = now() + 20000; choose(button.dataset.choice); };
for (const button of document.querySelectorAll('[data-press]')) button.onclick = () => press(button);
document.addEventListener('visibilitychange', seen);
addEventListener('resize', draw);
screen.orientation?.addEventListener('change', draw);
const beat = setInterval(() => {
  if (!running) return;
  link.watch();
  repeatOrientation();
  if (document.body.dataset.screen === 'choices' && now() > choicesUntil) go('aim');
}, 50);
