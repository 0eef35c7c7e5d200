// The verdict beside the questions changes as facts arrive. Without this script the button does the same.
const form = document.getElementById("job");
let asked = 0;

const address = () => {
  const query = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (value.trim() !== "") query.append(name, value);
  return `/?${query}`;
};

// The control of the new questions that stands for one of the old; a set of them is known by name and value.
const find = (old) => {
  const all = [...form.elements].filter((one) => one.matches("input:not([type=hidden]), button"));
  const same = (one) => (old.id && old.id === one.id) || (!old.id && old.name === one.name && old.value === one.value);
  return { all, at: all.findIndex(same) };
};

// How the job stands, as it is told aloud: once, and only where it has changed.
const gist = () => [...document.querySelectorAll("#short strong, #gist p")].map((one) => one.textContent).join(". ");

const update = async (changed) => {
  const mine = ++asked;
  const to = address();
  let answer;
  try {
    answer = await fetch(to, { headers: { accept: "text/html" } });
  } catch {
    return; // the server has stopped: the button tells so
  }
  if (!answer.ok || mine !== asked) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (mine !== asked) return;
  const focus = document.activeElement;
  const held = focus && form.contains(focus) ? { id: focus.id, name: focus.name, value: focus.value, start: focus.selectionStart } : null;
  const before = gist();
  for (const part of ["short", "gist", "beside", "questions"])
    document.getElementById(part).replaceChildren(...page.getElementById(part).childNodes);
  if (gist() !== before) document.getElementById("told").textContent = gist();
  document.querySelector("footer").replaceWith(page.querySelector("footer"));
  document.querySelector("header.top").replaceWith(page.querySelector("header.top"));
  history.replaceState(null, "", to);
  if (!held) return;
  const same = find(held);
  // Where the question under the keyboard is no longer asked, the one after what was changed is next.
  const after = changed ? find(changed) : { at: -1 };
  const next = same.all[same.at >= 0 ? same.at : after.at >= 0 ? Math.min(after.at + 1, same.all.length - 1) : 0];
  next?.focus();
  if (same.at >= 0 && held.start != null && next.type === "text") next.setSelectionRange(held.start, held.start);
};

form.addEventListener("change", ({ target }) => update({ id: target.id, name: target.name, value: target.value }));
form.addEventListener("submit", (event) => {
  event.preventDefault();
  update();
});
