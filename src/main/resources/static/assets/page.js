// Small conveniences; every page works without them.
"use strict";

// A form marked so is sent when one of its choices changes.
document.addEventListener("change", (event) => {
  const form = event.target.closest("form[data-send-on-change]");
  if (form) form.requestSubmit();
});
