// The wizard wants 80 columns; where letters would be too small for that, it takes 48.
// A letter of the font is 0.6 of its size wide.
const LETTER = 0.605;
const LEGIBLE = 12;
const fingers = window.matchMedia("(pointer: coarse)").matches;
const terminal = document.getElementById("terminal");
if ("fitted" in terminal.dataset) {
  const fitting = (columns) => Math.floor(window.innerWidth / columns / LETTER);
  const size = fitting(80) >= LEGIBLE ? fitting(80) : fitting(48);
  terminal.dataset.fontSize = Math.max(10, Math.min(16, size));
}
if (fingers) {
  terminal.dataset.sessionWebsocketUrl += "/touch"; // keys in dialogs are drawn for a finger
}

// A browser that only pretends to be a phone has another number of device pixels than it says.
const { observe } = ResizeObserver.prototype;
ResizeObserver.prototype.observe = function (element, options) {
  if (String(options?.box) === "device-pixel-content-box") {
    throw new TypeError("The size is calculated from the ratio of pixels.");
  }
  return observe.call(this, element, options);
};
document.getElementById("again").addEventListener("click", () => window.location.reload());

// A keyboard on the screen takes half of it: what is left is all there is.
const view = window.visualViewport;
if (view) {
  let most = view.height;
  const fit = () => {
    most = Math.max(most, view.height);
    document.body.style.setProperty("--height", `${view.height}px`);
    document.body.classList.toggle("-typing", view.height < 0.7 * most);
    window.scrollTo(0, 0);
    window.dispatchEvent(new Event("resize"));
  };
  let last = view.height;
  document.body.style.setProperty("--height", `${last}px`);
  view.addEventListener("resize", () => {
    if (view.height !== last) {
      last = view.height;
      fit();
    }
  });
}

// Keys that a keyboard on the screen lacks. They go where typed keys go.
const codes = {
  Escape: 27, Enter: 13, ArrowUp: 38, ArrowDown: 40, ArrowLeft: 37, ArrowRight: 39,
  F1: 112, F2: 113, F3: 114, F4: 115, F6: 117, p: 80, z: 90,
};
for (const button of document.querySelectorAll(".keys button")) {
  // Not to take the focus keeps the keyboard on the screen as it is.
  button.addEventListener("pointerdown", (event) => event.preventDefault());
  button.addEventListener("click", () => {
    const key = button.dataset.key;
    const held = { ctrlKey: key.length === 1, bubbles: true, cancelable: true };
    const press = new KeyboardEvent("keydown", { key, code: key, ...held });
    Object.defineProperty(press, "keyCode", { value: codes[key] });
    document.querySelector(".xterm-helper-textarea")?.dispatchEvent(press);
  });
}

// Keys go to the wizard from the start, and to the one button once it is closed.
new MutationObserver(() => {
  const closed = document.body.classList.contains("-closed");
  const keys = closed ? "#again" : ".xterm-helper-textarea";
  document.querySelector(keys)?.focus();
}).observe(document.body, { attributeFilter: ["class"] });
