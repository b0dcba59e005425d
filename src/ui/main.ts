import "./state/zod-without-eval.ts";
import { mount } from "svelte";
import App from "./App.svelte";
import "./look/tokens.css";
import "./look/base.css";
import "./look/print.css";
import { showHidden } from "./look/show-hidden.ts";
import { desk } from "./state/desk.svelte.ts";
import { loadFirstMachine } from "./state/load-machine.ts";

const target = document.querySelector("#app");
if (!target) throw new Error('Cannot start: the page has no element "app"');
showHidden(document.body);
mount(App, { target });
void loadFirstMachine(desk);
