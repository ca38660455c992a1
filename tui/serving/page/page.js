// The wizard wants 80 columns. A letter of the font is 0.6 of its size wide.
const terminal = document.getElementById("terminal");
if ("fitted" in terminal.dataset) {
  const fitting = Math.floor(window.innerWidth / 80 / 0.605);
  terminal.dataset.fontSize = Math.max(8, Math.min(16, fitting));
}
document.getElementById("again").addEventListener("click", () => window.location.reload());

// Keys go to the wizard from the start, and to the one button once it is closed.
new MutationObserver(() => {
  const closed = document.body.classList.contains("-closed");
  const keys = closed ? "#again" : ".xterm-helper-textarea";
  document.querySelector(keys)?.focus();
}).observe(document.body, { attributeFilter: ["class"] });
