import "./state/zod-without-eval.ts";
import { mount } from "svelte";
import App from "./App.svelte";
import "./look/tokens.css";
import "./look/base.css";
import "./look/print.css";
import { machineArrival } from "./state/machine-arrival.svelte.ts";

const target = document.querySelector("#app");
if (!target) throw new Error('Cannot start: the page has no element "app"');
mount(App, { target });
void machineArrival.arrive();
