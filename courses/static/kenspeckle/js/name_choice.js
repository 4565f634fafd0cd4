// While a name is typed, the choice "the plant I named" follows, so that nobody has to touch it.
// Without this script the page works the same; the choice is then made by hand.
document.querySelectorAll("[data-name-choice]").forEach((field) => {
  const group = field.closest("fieldset");
  const pick = (value) => {
    const radio = group && group.querySelector(`input[type=radio][value=${value}]`);
    if (radio) radio.checked = true;
  };
  field.addEventListener("input", () => {
    if (!field.value) return;
    const another = group.querySelector("input[value=another]");
    if (!another || !another.checked) pick("listed");
  });
  if (!group) return;
  group.querySelectorAll("input[value=unknown]").forEach((radio) => {
    radio.addEventListener("change", () => {
      if (radio.checked) field.value = "";
    });
  });
});
