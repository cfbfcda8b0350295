"use strict";
// Pairs, sends the orientation and shows the guidance as it comes.
const shown = document.getElementById("shown");
let number = 0;
document.getElementById("start").addEventListener("click", () => {
  const link = new WebSocket(`wss://${location.host}${location.pathname}link`);
  link.onopen = () => link.send(JSON.stringify({ t: "hello", key: sessionStorage.getItem("key") || "" }));
  link.onmessage = (e) => {
    const said = JSON.parse(e.data);
    if (said.t === "paired") {
      sessionStorage.setItem("key", said.key);
    } else {
      shown.textContent = JSON.stringify(said, null, 1);
      link.send(JSON.stringify({ t: "drawn", n: said.n }));
    }
  };
  link.onclose = (e) => { shown.textContent = `closed ${e.code}`; };
  const turned = (kind) => (e) => {
    if (link.readyState === 1) {
      link.send(JSON.stringify({ t: "o", n: ++number, kind, a: e.alpha, b: e.beta, g: e.gamma, age: 0, screen: 0, shaking: false }));
    }
  };
  addEventListener("deviceorientationabsolute", turned("abs"));
  addEventListener("deviceorientation", turned("rel"));
});
