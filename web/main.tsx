/** Puts the page into its document, and has what it shows kept for reading without the service. */
import { render } from "preact";
import { Page } from "./shell/page.tsx";

const root = document.getElementById("page");
if (root !== null) render(<Page />, root);

// Browsers keep pages only from this machine or over HTTPS; elsewhere an open page goes on showing what it read last.
if ("serviceWorker" in navigator)
  navigator.serviceWorker.register("/worker.js", { type: "module" }).catch((trouble: unknown) => {
    console.warn(trouble);
  });
