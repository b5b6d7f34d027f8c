// SPDX-License-Identifier: GPL-3.0-or-later
import { mount } from "svelte";
import "./styles/page.css";
import { prefer } from "./store/prefer.svelte";
import App from "./view/App.svelte";

await prefer.begin();
mount(App, { target: document.body });
