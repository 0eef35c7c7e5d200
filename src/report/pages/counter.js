// The verdict beside the questions changes as facts arrive. Without this script the button does the same.
const form = document.getElementById("job");
let asked = 0;

const address = () => {
  const query = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (value.trim() !== "") query.append(name, value);
  return `/?${query}`;
};

const update = async () => {
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
  const at = focus && form.contains(focus) ? { id: focus.id, name: focus.name, value: focus.value, start: focus.selectionStart } : null;
  document.getElementById("beside").replaceChildren(...page.getElementById("beside").childNodes);
  document.getElementById("questions").replaceChildren(...page.getElementById("questions").childNodes);
  document.querySelector("footer").replaceWith(page.querySelector("footer"));
  document.querySelector("header.top").replaceWith(page.querySelector("header.top"));
  history.replaceState(null, "", to);
  if (at) {
    const again = [...form.elements].find((one) => (at.id && one.id === at.id) || (!at.id && one.name === at.name && one.value === at.value));
    again?.focus();
    if (again && at.start != null && again.type === "text") again.setSelectionRange(at.start, at.start);
  }
};

form.addEventListener("change", update);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  update();
});
