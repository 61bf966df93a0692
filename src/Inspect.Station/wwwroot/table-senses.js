// Keeps the screen of a table and of the wall awake, and plays a soft sound, where wanted, when the verdict's word changes.

export function stayAwake() {
  const hold = () => { if (!document.hidden) navigator.wakeLock?.request("screen").catch(() => { /* the screen then goes dark as usual */ }); };
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

  // Browsers allow sound only after a touch, and some only sound that a touch started: the first touch prepares it.
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
