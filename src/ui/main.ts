import "./state/zod-without-eval.ts";
import { mount } from "svelte";
import App from "./App.svelte";
import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/circuit-diagram.css";
import "./styles/print.css";
import { showHidden } from "./styles/show-hidden.ts";
import FaultNotice from "./components/FaultNotice.svelte";
import { faultNet } from "./state/fault-net.svelte.ts";
import { machineArrival } from "./state/machine-arrival.svelte.ts";

const target = document.querySelector("#app");
if (!target) throw new Error('Cannot start: the page has no element "app"');
showHidden(document.body);
// Beside the app, so that it is there even if nothing else is.
mount(FaultNotice, { target: document.body });
faultNet.watch(window);
mount(App, { target });
void machineArrival.arrive();
