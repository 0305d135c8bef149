"use strict";
// Asks one question after the other, takes the call, then shows the ruling; at the end the calls can be saved as a small file.
const lesson = document.body.dataset;
const parts = [...document.querySelectorAll("main > section")];
const asks = parts.filter((part) => part.dataset.question);
const nameField = document.querySelector("#name");
const kept = `lesson ${lesson.lesson}`;
const calls = new Map();  // question id -> {ruling, consequence, why}
let started = "";

function keep() {
  try {
    sessionStorage.setItem(kept, JSON.stringify({ name: nameField.value, started, calls: [...calls] }));
  } catch { /* a browser that keeps nothing: a page loaded anew then begins anew */ }
}

function loadKept() {
  try {
    const data = JSON.parse(sessionStorage.getItem(kept) || "{}");
    nameField.value = data.name || "";
    started = data.started || "";
    for (const [id, call] of data.calls || []) calls.set(id, call);
  } catch { calls.clear(); }
}

function show(part) {
  for (const one of parts) {
    one.hidden = one !== part;
    for (const video of one.querySelectorAll("video")) video.pause();
  }
  if (part.dataset.question) play(part);
  if (part.id === "end") sumUp();
  const heading = part.querySelector("h2");
  heading.focus();
  scrollTo(0, 0);
}

function play(part) {
  const video = part.querySelector("video");
  if (!video) return;
  if (!video.src) {
    const text = atob(document.getElementById(video.dataset.clip).textContent.trim());
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    video.src = URL.createObjectURL(new Blob([bytes], { type: "video/mp4" }));
  }
  if (!matchMedia("(prefers-reduced-motion: reduce)").matches) video.play().catch(() => {});
}

function chosen(part, field) {
  const found = part.querySelector(`input[data-field=${field}]:checked`);
  return found ? found.value : "";
}

function told(part, field, value) {
  const found = [...part.querySelectorAll(`input[data-field=${field}]`)].find((one) => one.value === value);
  return found ? found.dataset.words : "";
}

function reveal(part, call) {
  part.querySelector("form").hidden = true;
  const yours = part.querySelector(".yours");
  yours.textContent = `${told(part, "ruling", call.ruling)}; consequence: ${told(part, "consequence", call.consequence)}`;
  part.querySelector(".same").textContent = call.ruling === part.dataset.ruling
    ? (follows(part, call) ? "Both as the book says." : "The ruling as the book says, the consequence not.")
    : "Not as the book says.";
  part.querySelector(".answer").hidden = false;
}

function follows(part, call) {  // what the film cannot tell has no consequence that could be called wrong
  return part.dataset.ruling === "cannot be told" || call.consequence === part.dataset.consequence;
}

function next(part) {
  show(parts[parts.indexOf(part) + 1]);
}

for (const part of asks) {
  part.querySelector("form").addEventListener("submit", (event) => {
    event.preventDefault();
    const call = {
      ruling: chosen(part, "ruling"), consequence: chosen(part, "consequence"),
      why: part.querySelector("textarea").value.slice(0, 500),
    };
    calls.set(part.dataset.question, call);
    keep();
    reveal(part, call);
    part.querySelector(".answer h3").focus();
  });
  part.querySelector(".next").addEventListener("click", () => next(part));
}

document.querySelector("#begin-form").addEventListener("submit", (event) => {
  event.preventDefault();
  started = started || new Date().toISOString();
  keep();
  show(asks.find((part) => !calls.has(part.dataset.question)) || parts[parts.length - 1]);
});

function result() {
  return JSON.stringify({
    what: "result of a lesson", form: 1, lesson: lesson.lesson, title: document.querySelector("h1").textContent,
    name: nameField.value.trim().slice(0, 80), started, ended: new Date().toISOString(),
    calls: asks.filter((part) => calls.has(part.dataset.question))
      .map((part) => ({ question: part.dataset.question, ...calls.get(part.dataset.question) })),
  }, null, 1);
}

function cell(row, words) {
  const made = document.createElement("td");
  made.textContent = words;
  row.append(made);
}

function sumUp() {
  const body = document.querySelector("#calls tbody");
  body.replaceChildren();
  let rulings = 0;
  let both = 0;
  for (const [number, part] of asks.entries()) {
    const call = calls.get(part.dataset.question);
    const row = document.createElement("tr");
    cell(row, `${number + 1}`);
    cell(row, part.dataset.asked);
    for (const field of ["ruling", "consequence"]) {
      cell(row, call ? told(part, field, call[field]) : "not answered");
      cell(row, told(part, field, part.dataset[field]));
    }
    body.append(row);
    if (call && call.ruling === part.dataset.ruling) {
      rulings += 1;
      both += follows(part, call) ? 1 : 0;
    }
  }
  document.querySelector("#sum").textContent =
    `${rulings} of ${asks.length} rulings as the book says, ${both} of them with the consequence.`;
  document.querySelector("#result").value = result();
}

document.querySelector("#save").addEventListener("click", () => {
  const link = document.createElement("a");
  const who = nameField.value.trim().replace(/[^\p{L}\p{N}]+/gu, "-").slice(0, 40).replace(/^-|-$/g, "");
  link.download = `result-${who || "no-name"}.json`;
  link.href = URL.createObjectURL(new Blob([result()], { type: "application/json" }));
  link.click();
  document.querySelector("#saved").textContent = `Saved as ${link.download}, where this browser keeps what it saves.`;
});

document.querySelector("#again").addEventListener("click", () => {
  calls.clear();
  started = "";
  keep();
  location.reload();
});

loadKept();
for (const part of asks) {
  const call = calls.get(part.dataset.question);
  if (call) reveal(part, call);
}
