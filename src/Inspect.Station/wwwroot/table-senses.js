// What a busy table, and the screen on the wall, need: it stays awake, and a soft sound may tell that the verdict's word changed.

export function stayAwake() {
  const hold = () => { if (!document.hidden) navigator.wakeLock?.request("screen").catch(() => { /* a screen that may not be held goes dark as ever */ }); };
  document.addEventListener("visibilitychange", hold);
  hold();
}

const tones = { Pass: [660, 880], Hold: [523], Fail: [294, 220] };

/** A button beside the keys, off until someone wants it, remembered on this device; gives what plays the sound of a word. */
export function makeSound(legend) {
  let isOn = false, audio = null;
  try { isOn = localStorage.getItem("sound") === "on"; } catch { /* off, then */ }
  if (!("AudioContext" in window)) return () => {};
  const button = Object.assign(document.createElement("button"), { type: "button", className: "second sound" });
  const show = () => { button.textContent = isOn ? "Sound: on" : "Sound: off"; button.setAttribute("aria-pressed", isOn); };
  button.addEventListener("click", () => {
    isOn = !isOn;
    try { localStorage.setItem("sound", isOn ? "on" : "off"); } catch { /* until the page is left */ }
    show();
    if (isOn) play("Hold");
  });
  show();
  legend.after(button);

  // Browsers let a page sound once it was touched, and some only what began at a touch: with the first one the sound is made ready.
  function ready() {
    if (!isOn) return;
    audio ??= new AudioContext();
    if (audio.state === "suspended") audio.resume().catch(() => { /* at the next touch */ });
  }
  for (const touch of ["keydown", "pointerdown"]) addEventListener(touch, ready);

  function play(word) {
    if (!isOn || !tones[word]) return;
    ready();
    tones[word].forEach((pitch, i) => {
      const [tone, loudness, at] = [audio.createOscillator(), audio.createGain(), audio.currentTime + i * .12];
      tone.frequency.value = pitch;
      loudness.gain.setValueAtTime(0, at);
      loudness.gain.linearRampToValueAtTime(.06, at + .02);
      loudness.gain.exponentialRampToValueAtTime(.0001, at + .16);
      tone.connect(loudness).connect(audio.destination);
      tone.start(at);
      tone.stop(at + .17);
    });
  }
  return play;
}
