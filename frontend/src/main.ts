import { mount } from "svelte";
import App from "./ui/App.svelte";
import "./ui/page.css";

const target = document.getElementById("page");
if (target === null) throw new Error("the page has no place to stand");
mount(App, { target });
