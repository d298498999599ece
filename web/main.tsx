/** Puts the page into its document. */
import { render } from "preact";
import { Page } from "./shell/page.tsx";

const root = document.getElementById("page");
if (root !== null) render(<Page />, root);
