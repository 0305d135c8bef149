"use strict";
// Filters the findings, and plays a film that the reader chooses from the own machine at the time of a finding.
const articles = [...document.querySelectorAll("article")];
const words = document.querySelector("#look-words");
const ruling = document.querySelector("#look-ruling");
const crew = document.querySelector("#look-crew");
const said = document.querySelector("#look-said");

function fits(article) {
  const text = words.value.trim().toLocaleLowerCase();
  return (!ruling.value || article.dataset.ruling === ruling.value)
    && (!crew.value || article.dataset.crew === crew.value)
    && (!text || article.textContent.toLocaleLowerCase().includes(text));
}

function look() {
  let shown = 0;
  for (const article of articles) {
    article.hidden = !fits(article);
    shown += article.hidden ? 0 : 1;
  }
  said.textContent = `${shown} of ${articles.length} shown`;
}

for (const field of [words, ruling, crew]) field.addEventListener("input", look);
document.querySelector("#look").addEventListener("submit", (event) => event.preventDefault());

const chosen = new Map();  // film id -> address of the chosen file
const video = document.querySelector("video");

for (const field of document.querySelectorAll("input[type=file]")) {
  field.addEventListener("change", () => {
    if (field.files.length) chosen.set(field.dataset.film, URL.createObjectURL(field.files[0]));
  });
}

for (const link of document.querySelectorAll("a[data-seconds]")) {
  link.addEventListener("click", (event) => {
    const address = chosen.get(link.dataset.film);
    if (!address) return;  // the link itself goes to the film
    event.preventDefault();
    if (video.dataset.film !== link.dataset.film) video.src = address;
    video.dataset.film = link.dataset.film;
    video.hidden = false;
    video.currentTime = Number(link.dataset.seconds);
    video.scrollIntoView({ block: "nearest" });
    video.play();
  });
}
look();
