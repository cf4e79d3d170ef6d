import { render } from 'preact';
import { App } from './App.tsx';
import './style/base.css';
import './style/parts.css';
import './style/days.css';
import './style/job.css';
import './style/work.css';
import './style/site.css';
import './style/hours.css';
import './style/clock.css';

const page = document.getElementById('page');
if (!page) throw new Error("index.html has no element with id 'page'");
render(<App />, page);
